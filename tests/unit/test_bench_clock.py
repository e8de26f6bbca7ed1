"""The clocks of this computer, and what stands in where the system has no name for its boot."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from ozonewright.bench import clock


@pytest.fixture(autouse=True)
def fresh() -> Iterator[None]:
    clock._boot.cache_clear()
    yield
    clock._boot.cache_clear()


def test_now_is_now_and_steady_goes_forward() -> None:
    first, second = clock.now(), clock.now()
    assert abs((first.wall - datetime.now(UTC)).total_seconds()) < 5.0
    assert first.wall.utcoffset() is not None
    assert first.boot == second.boot
    assert first.steady is not None
    assert second.steady is not None
    assert 0.0 <= second.steady - first.steady < 5.0


def test_without_a_name_the_process_stands_for_the_boot(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(clock, "BOOT", tmp_path / "none")
    found = clock.now()
    assert found.boot is not None
    assert found.boot.startswith("process ")
    assert found.steady is not None
    assert found.steady < 5.0
    clock._boot.cache_clear()
    assert clock.now().boot != found.boot


@pytest.mark.parametrize("platform", ["linux", "darwin", "win32"])
def test_every_system_has_a_clock_that_nobody_sets(
    monkeypatch: pytest.MonkeyPatch, platform: str
) -> None:
    monkeypatch.setattr(clock.sys, "platform", platform)
    if platform != "linux":
        monkeypatch.delattr(time, "CLOCK_BOOTTIME", raising=False)
    assert clock.steady() > 0.0
