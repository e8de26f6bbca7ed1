"""A telephone at the bench: let in by a code that works once, known by a cookie until the end.

What is let in sees the bench page and nothing else. Codes and cookies live in memory alone: they
end with the server.
"""

from __future__ import annotations

import hmac
import secrets
import socket
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from ipaddress import AddressValueError, IPv4Address
from threading import Lock

from ozonewright.errors import InputError
from ozonewright.notebook.acts import ALPHABET

COOKIE = "bench"
CODE_LETTERS = 12
"""60 random bits: far more than can be tried in the lifetime of a code."""
CODE_LIFE = 600.0
"""Seconds after which a code that nobody used is void."""
MOST_CODES = 8
NOWHERE = "192.0.2.1"
"""An address of the range kept for examples: asking the way to it sends nothing."""


@dataclass(frozen=True, slots=True)
class Session:
    """One telephone that was let in."""

    cookie: str
    token: str
    """Its forms carry it."""
    name: str


@dataclass
class Phones:
    """The address for telephones, its codes, and who is in."""

    host: str
    port: int
    _codes: dict[str, float] = field(default_factory=dict)
    _sessions: list[Session] = field(default_factory=list)
    _lock: Lock = field(default_factory=Lock)
    _let_in: int = 0

    @property
    def authority(self) -> str:
        """What a browser sends as Host."""
        return f"{self.host}:{self.port}"

    def address(self, code: str) -> str:
        """Return the address that a telephone opens with a code."""
        return f"http://{self.authority}/in/{code}"

    def new_code(self) -> str:
        """Return a code that lets one telephone in, once."""
        code = "".join(secrets.choice(ALPHABET) for _ in range(CODE_LETTERS))
        with self._lock:
            self._sweep()
            while len(self._codes) >= MOST_CODES:
                del self._codes[next(iter(self._codes))]
            self._codes[code] = time.monotonic() + CODE_LIFE
        return code

    def codes(self) -> tuple[str, ...]:
        """Return the codes that would let a telephone in."""
        with self._lock:
            self._sweep()
            return tuple(self._codes)

    def holds(self, code: str) -> bool:
        """Return whether a code would let a telephone in."""
        with self._lock:
            self._sweep()
            return self._find(code) is not None

    def let_in(self, code: str) -> Session | None:
        """Use a code up; return the telephone's session, or None for a code that is not valid."""
        with self._lock:
            self._sweep()
            found = self._find(code)
            if found is None:
                return None
            del self._codes[found]
            self._let_in += 1
            session = Session(
                secrets.token_urlsafe(24), secrets.token_urlsafe(24), f"phone {self._let_in}"
            )
            self._sessions.append(session)
            return session

    def known(self, cookie: str) -> Session | None:
        """Return the telephone of a cookie."""
        with self._lock:
            found = [one for one in self._sessions if _same(one.cookie, cookie)]
        return found[0] if found else None

    def names(self) -> tuple[str, ...]:
        """Return who is in."""
        with self._lock:
            return tuple(one.name for one in self._sessions)

    def turn_out(self) -> None:
        """End every session and void every code."""
        with self._lock:
            self._sessions.clear()
            self._codes.clear()

    def _sweep(self) -> None:
        now = time.monotonic()
        self._codes = {code: ends for code, ends in self._codes.items() if ends > now}

    def _find(self, code: str) -> str | None:
        return next((one for one in self._codes if _same(one, code)), None)


def _same(one: str, other: str) -> bool:
    return hmac.compare_digest(one.encode(), other.encode())


def local_address(asked: str | None) -> str:
    """Return this machine's address on the local network; only such a one is ever served.

    Raises
    ------
    InputError
        None is found, or the one asked for is not of a local network.
    """
    found = asked or next(_outgoing(), None)
    if found is None:
        raise InputError(
            "this machine is in no local network",
            where="--phone",
            fix="Join the network that the telephone is in, or name the address: "
            "--phone-address 192.168.1.5.",
        )
    try:
        address = IPv4Address(found)
    except AddressValueError:
        address = None
    if address is None or not address.is_private or address.is_unspecified:
        raise InputError(
            "this is no address of a local network",
            where="--phone-address",
            got=found,
            fix="Telephones are served in a local network alone: 10.…, 172.16.… to 172.31.…, "
            "192.168.….",
        )
    return found


def _outgoing() -> Iterator[str]:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect((NOWHERE, 9))
        except OSError:
            return
        yield str(probe.getsockname()[0])
