"""Posts by somebody who means harm: refused or told, never a trace, nothing written by halves."""

from __future__ import annotations

from pathlib import Path

import pytest

from web.form_schema import at_the_desk, operations
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


@pytest.mark.parametrize("declared", ["-1", "99999999999", "ten", "²"])
def test_a_length_that_is_none_is_refused(tmp_path: Path, declared: str) -> None:
    with at_the_desk(tmp_path) as client:
        headers = {
            "content-type": "application/x-www-form-urlencoded",
            "content-length": declared.encode("latin-1"),
        }
        reply = client.post("/undo", content=b"token=x", headers=headers)
    assert reply.status_code in (400, 413)
