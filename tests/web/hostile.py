"""Form posts by somebody who means harm, or by a program that is broken.

A post begins as the form that the page itself shows, filled in; one thing of it is then turned.
The test sends some to every route that takes a form, the benchmark thousands.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import quote, quote_plus

from starlette.testclient import TestClient

from ozonewright.notebook import Notebook
from web.form_schema import FORM, Operation, operations, token_of
from web.fuzz import IDS, faults

TEXTS = (
    '"><script>alert(1)</script>', "'><img src=x onerror=alert(1)>", "{{ 7*7 }}{% raw %}",
    "</textarea></select></title><svg onload=alert(1)>", "javascript:alert(1)",
    "'; DROP TABLE entry; --", "../../../../etc/passwd", "a\x00b", "\x1b[31m\x07", "\u202e txet",
    "\u2066\u200b\ufeff", "\ud7ff" * 300, "🧪" * 900, "9" * 4500, "-1", "1e309 mL", "nan", "inf s",
    "1,234 mL", "± ±", "0", "1e-320 mol/L", "= cmd()", "\r\nset-cookie: a=b", "%00%ff", "&#x202e;",
    "x" * 4001, "\n" * 500, "[[[[", '[rig]\nlabel = "' + "a" * 500, "C1", "vanillin", "workshop",
    "1 mL ± 1e30 mL", "10000-01-01", "2026-02-30 25:61", "٣ mL", "Infinity", "1_000 s", "True",
)  # fmt: skip
NAMES = (
    "[", "]", "a.b[999999].c", "run.__class__", "titration.titres[0]", "", "é", "a" * 5000,
    "substrate[7].smiles", "absorber.bottles[99].volume", "checklist.fused", "x[1][2]",
)  # fmt: skip
Pairs = list[tuple[str, str]]


@dataclass
class Post:
    """One request as it goes out."""

    path: str
    content: bytes
    headers: dict[str, str] = field(default_factory=lambda: {"content-type": FORM})
    status: int = 0
    """What the door must answer, where the post may not come through it."""


def encoded(pairs: Pairs) -> bytes:
    """Return pairs as a browser writes them."""
    return "&".join(f"{quote_plus(name)}={quote_plus(text)}" for name, text in pairs).encode()


def filled(one: Operation, token: str, chance: random.Random) -> Pairs:
    """Return the form of a page with the values, choices or examples that stand in it."""
    fields = {name: chance.choice(sorted(texts)) for name, texts in sorted(one.fields.items())}
    return [("token", token), *((name, text) for name, text in fields.items() if name != "token")]


def _text(path: str, pairs: Pairs, chance: random.Random) -> Post:
    out = [*pairs] if len(pairs) > 1 else [*pairs, ("more", "")]
    for _ in range(chance.choice((1, 1, 2, len(out)))):
        place = chance.randrange(1, len(out))
        out[place] = (out[place][0], chance.choice(TEXTS))
    return Post(path, encoded(out))


def _huge(path: str, pairs: Pairs, chance: random.Random) -> Post:
    size = chance.choice((5_000, 60_000, 200_000, 255_000, 300_000, 2_000_000))
    name = pairs[-1][0] if len(pairs) > 1 else "more"
    return Post(path, encoded([*pairs, (name, chance.choice("x漢\n<") * size)]))


def _no_token(path: str, pairs: Pairs, chance: random.Random) -> Post:
    token = chance.choice(([], [("token", "")], [("token", "é" * 40)], [("token", "a" * 32)]))
    return Post(path, encoded([*token, *pairs[1:]]), status=403)


def _repeated(path: str, pairs: Pairs, chance: random.Random) -> Post:
    name = chance.choice(pairs)[0]
    again = [(name, chance.choice(TEXTS)) for _ in range(chance.choice((1, 5, 390, 500)))]
    return Post(path, encoded([*pairs, *again]))


def _other_kind(path: str, pairs: Pairs, chance: random.Random) -> Post:
    kind = chance.choice(("application/json", "text/plain", "text/xml", "", "application/x-www-"))
    return Post(path, encoded(pairs), {"content-type": kind}, status=415)


def _multipart(path: str, pairs: Pairs, chance: random.Random) -> Post:
    parts = "".join(
        f'--line\r\nContent-Disposition: form-data; name="{quote(name)}"\r\n\r\n{text}\r\n'
        for name, text in pairs
    )
    whole = f"{parts}--line--\r\n".encode()
    cut = whole[: chance.randrange(len(whole))]
    headers = {"content-type": "multipart/form-data; boundary=line"}
    return Post(path, cut, headers, status=415)


def _broken(path: str, pairs: Pairs, chance: random.Random) -> Post:
    content = bytearray(encoded(pairs))
    for _ in range(chance.randint(1, 6)):
        place = chance.randrange(len(content) + 1)
        content[place:place] = chance.choice((b"%", b"%zz", b"%ff", b"\xff", b"&&", b"=", b"\x00"))
    return Post(path, bytes(content))


def _renamed(path: str, pairs: Pairs, chance: random.Random) -> Post:
    place = chance.randrange(len(pairs))
    pairs = [*pairs[:place], (chance.choice(NAMES), pairs[place][1]), *pairs[place + 1 :]]
    return Post(path, encoded(pairs))


ACTS: tuple[Callable[[str, Pairs, random.Random], Post], ...] = (
    _text, _text, _text, _text, _huge, _no_token, _repeated, _other_kind, _multipart, _broken,
    _renamed,
)  # fmt: skip


def posts(
    client: TestClient, count: int, number: int, found: list[Operation] | None = None
) -> Iterator[Post]:
    """Yield hostile posts, every route that takes a form in turn."""
    chance, token = random.Random(number), token_of(client)
    taking = [one for one in found or operations(client) if one.method == "POST"]
    for turn in range(count):
        one = taking[turn % len(taking)]
        path = one.path.replace("{id}", chance.choice(IDS))
        act = chance.choice(ACTS)
        yield act(path, filled(one, token, chance), chance)


def send(client: TestClient, post: Post) -> Any:
    """Send one post."""
    return client.post(post.path, content=post.content, headers=post.headers)


def wrongs(client: TestClient, file: Path, post: Post) -> Iterator[str]:
    """Send a post and yield what is wrong with what came of it."""
    before = _written(file)
    reply = send(client, post)
    yield from (f"{post.path}: {fault}" for fault in faults(reply))
    if post.status and reply.status_code != post.status:
        yield f"{post.path}: {reply.status_code} instead of {post.status}"
    if reply.status_code >= 400 and _written(file) != before:
        yield f"{post.path}: refused with {reply.status_code}, and something was written"


def _written(file: Path) -> int:
    with Notebook.open(file, read_only=True) as notebook:
        return notebook.counts()[1]
