"""Posts by somebody who means harm: refused or told, never a trace, nothing written by halves."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from ozonewright.notebook import Notebook
from web.form_schema import at_the_desk, operations, token_of
from web.hostile import ACTS, Post, posts, send, wrongs

COUNT = 150


def test_hostile_posts_do_no_harm(tmp_path: Path) -> None:
    with at_the_desk(tmp_path) as client:
        found = operations(client)
        taking = [one for one in found if one.method == "POST"]
        assert len(taking) >= 20
        for post in posts(client, COUNT, 20261127, found):
            assert list(wrongs(client, tmp_path / "bench.sqlite", post)) == [], post
        assert client.get("/runs").status_code == 200


def test_the_yardstick_sees_a_door_that_stands_open(tmp_path: Path) -> None:
    with at_the_desk(tmp_path) as client:
        file = tmp_path / "bench.sqlite"
        (post,) = posts(client, 1, 3, [one for one in operations(client) if one.path == "/undo"])
        told = list(wrongs(client, file, Post(post.path, post.content, status=418)))
    assert any("instead of 418" in one for one in told)


def test_every_act_makes_a_post(tmp_path: Path) -> None:
    with at_the_desk(tmp_path) as client:
        kinds = {act.__name__ for act in ACTS}
        assert len(kinds) == 8
        sent = [send(client, post).status_code for post in posts(client, 60, 5)]
    assert {303, 403, 415, 422} <= set(sent)


def test_many_keep_at_once_and_each_is_kept(tmp_path: Path) -> None:
    """Twenty hands at one notebook: none is told that another is writing."""
    with at_the_desk(tmp_path) as client:
        token = token_of(client)

        def keep(number: int) -> int:
            fields = {
                "token": token,
                "sheet": f"s{number // 2}",
                "run.label": f"K{number // 2}",
                "run.on_time": "4 min",
                "run.rate": "0.5 g/h",
            }
            return client.post("/new", data=fields).status_code

        with ThreadPoolExecutor(20) as pool:
            assert set(pool.map(keep, range(60))) == {303}
    with Notebook.open(tmp_path / "bench.sqlite", read_only=True) as notebook:
        kept = [entry.label for entry in notebook.entries() if str(entry.label).startswith("K")]
    # every form came twice, as by a second tap, and made one run
    assert sorted(kept) == sorted(f"K{number}" for number in range(30))


@pytest.mark.parametrize("declared", ["-1", "99999999999", "ten", "²"])
def test_a_length_that_is_none_is_refused(tmp_path: Path, declared: str) -> None:
    with at_the_desk(tmp_path) as client:
        headers = {
            "content-type": "application/x-www-form-urlencoded",
            "content-length": declared.encode("latin-1"),
        }
        reply = client.post("/undo", content=b"token=x", headers=headers)
    assert reply.status_code in (400, 413)
