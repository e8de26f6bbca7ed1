"""Random sequences of acts against a model in memory; export and import; hostile text."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from ozonewright.errors import AppError, InputError, NotFound, StoreError
from ozonewright.notebook import REASONS, Notebook

TEXT = st.text(st.characters(blacklist_categories=("Cs",)), max_size=30)
HOSTILE = [
    "'; DROP TABLE entry; --",
    "<script>alert(1)</script>",
    '"""',
    "\u202eabc",
    "a\nb\r\nc\t",
    "🧪 ± µ",
    "%s %d {0}",
    "..",
    "x" * 5000,
    "\u0000",
    "日本語",
]


def run(remark: str = "", label: str | None = None) -> dict[str, Any]:
    """Return a small run document (invented)."""
    fields: dict[str, Any] = {"rate": "0.53 g/h", "remark": remark, "setting": "s"}
    return {"run": fields | ({"label": label} if label is not None else {})}


class Acts(RuleBasedStateMachine):
    """Every act on the file is mirrored in a dict; the two must agree at every step."""

    @initialize()
    def begin(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name) / "book.sqlite"
        self.book = Notebook.create(self.path, "model")
        self.now: dict[str, tuple[dict[str, Any], bool]] = {}
        self.revisions: dict[str, int] = {}
        self.undoable: list[tuple[str, tuple[dict[str, Any], bool] | None]] = []

    def teardown(self) -> None:
        if hasattr(self, "book"):
            assert self.book.integrity() == []
            self.book.close()
            self.folder.cleanup()

    def standing(self) -> list[str]:
        return [name for name, (_, gone) in self.now.items() if not gone]

    @rule(remark=TEXT)
    def add(self, remark: str) -> None:
        data = run(remark)
        entry = self.book.add("run", data)
        self.undoable.append((entry.id, None))
        self.now[entry.id], self.revisions[entry.id] = (data, False), 1

    @precondition(lambda self: self.standing())
    @rule(remark=TEXT, choice=st.integers(0, 999), reason=st.sampled_from(REASONS))
    def revise(self, remark: str, choice: int, reason: Any) -> None:
        name = self.standing()[choice % len(self.standing())]
        data = run(remark)
        if data == self.now[name][0]:
            with pytest.raises(InputError):
                self.book.revise(name, data, reason=reason)
            return
        self.undoable.append((name, self.now[name]))
        self.book.revise(name, data, reason=reason)
        self.now[name] = (data, False)
        self.revisions[name] += 1

    @precondition(lambda self: self.standing())
    @rule(choice=st.integers(0, 999))
    def withdraw(self, choice: int) -> None:
        name = self.standing()[choice % len(self.standing())]
        self.undoable.append((name, self.now[name]))
        self.book.withdraw(name, reason="struck out")
        self.now[name] = (self.now[name][0], True)
        self.revisions[name] += 1

    @rule()
    def undo(self) -> None:
        undone = self.book.undo()
        if not self.undoable:
            assert undone is None
            return
        name, before = self.undoable.pop()
        assert undone is not None
        assert undone.id == name
        self.now[name] = before if before is not None else (self.now[name][0], True)
        self.revisions[name] += 1

    @rule()
    def reopen(self) -> None:
        self.book.close()
        self.book = Notebook.open(self.path)

    @invariant()
    def agree(self) -> None:
        if not hasattr(self, "book"):
            return
        entries = {entry.id: entry for entry in self.book.entries(withdrawn=True)}
        found = {name: (entry.data, entry.withdrawn) for name, entry in entries.items()}
        assert found == self.now
        assert {name: entry.revision for name, entry in entries.items()} == self.revisions
        assert {entry.id for entry in self.book.entries()} == set(self.standing())


Acts.TestCase.settings = settings(max_examples=25, stateful_step_count=20, deadline=None)
TestActs = Acts.TestCase


@pytest.fixture
def book(tmp_path: Path) -> Any:
    with Notebook.create(tmp_path / "book.sqlite", "garden") as notebook:
        yield notebook


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_comes_back_as_typed(book: Notebook, tmp_path: Path, text: str) -> None:
    data = {"run": {field: text for field in ("label", "by", "remark", "setting")}}
    data["run"]["rate"] = "0.5 g/h"
    entry = book.add("run", data)
    assert book.get(entry.id).data == data
    book.export(tmp_path / "out")
    with Notebook.create(tmp_path / "other.sqlite", "other") as other:
        other.import_(tmp_path / "out")
        assert other.get(entry.id).data == data


def test_every_type_of_toml_survives_export_and_import(book: Notebook, tmp_path: Path) -> None:
    data = run("kept", "R1")
    data["run"]["started"] = datetime(2026, 5, 9, 10, 20)
    zoned = run("zoned", "R2")
    zoned["run"]["started"] = datetime(2026, 5, 9, 10, 20, tzinfo=UTC)
    first, second = book.add("run", data), book.add("run", zoned)
    book.revise(first.id, run("kept better", "R1"), reason="misread")
    book.withdraw(second.id, reason="wrong bottle")
    book.export(tmp_path / "out")
    with Notebook.create(tmp_path / "other.sqlite", "other") as other:
        assert other.import_(tmp_path / "out").entries == 2
        again = other.import_(tmp_path / "out")
        assert (again.entries, again.revisions) == (0, 0)
        for entry in (first, second):
            ours, theirs = book.history(entry.id), other.history(entry.id)
            assert [one.digest for one in ours] == [one.digest for one in theirs]
            assert [one.data for one in ours] == [one.data for one in theirs]
        assert other.integrity() == []


def test_contradicting_revisions_are_both_kept(book: Notebook, tmp_path: Path) -> None:
    entry = book.add("run", run("as typed", "R1"))
    book.backup(tmp_path / "copy.sqlite")
    book.revise(entry.id, run("ours", "R1"), reason="misread")
    with Notebook.open(tmp_path / "copy.sqlite") as copy:
        copy.revise(entry.id, run("theirs", "R1"), reason="other")
        found = copy.import_(book.path)
        assert found.conflicts == ("R1",)
        assert copy.get("R1").data["run"]["remark"] == "theirs"
        assert {one.data["run"]["remark"] for one in copy.history(entry.id)} == {
            "as typed",
            "ours",
            "theirs",
        }
        assert copy.integrity() == []


def test_copy_leaves_the_readings_out(book: Notebook) -> None:
    data = {
        "run": {"label": "R1", "on_time": "240 s", "setting": "s"},
        "titration": {"titres": ["28 mL"], "titrant": {"concentration": "0.05 mol/L"}},
    }
    book.add("run", data)
    again = book.copy("R1", {"run.on_time": "300 s"})
    assert again["run"] == {"setting": "s", "on_time": "300 s"}
    assert "titres" not in again["titration"]
    assert again["titration"]["titrant"] == {"concentration": "0.05 mol/L"}


def test_search_settings_and_last(book: Notebook) -> None:
    book.add("run", run("ethene bottle", "R1"))
    book.add("run", run("another", "R2"))
    assert [entry.label for entry in book.search("bottle ethene")] == ["R1"]
    assert book.settings() == ["s"]
    assert [entry.label for entry in book.entries(last=1)] == ["R2"]
    assert book.last_entry is not None
    assert book.last_entry.label == "R2"


def test_unknown_labels_name_the_nearest(book: Notebook) -> None:
    book.add("run", run("", "C4"))
    with pytest.raises(NotFound) as caught:
        book.get("C5")
    assert "C4" in caught.value.fix


@pytest.mark.parametrize(
    "act",
    [
        lambda book: book.add("run", {"run": {"rate": "0.5"}}),
        lambda book: book.add("rum", {"rum": {}}),
        lambda book: book.revise("R1", run("x"), reason="because"),
        lambda book: book.withdraw("R1", reason=" "),
        lambda book: book.revise("R1", run("seen by other"), reason="other", on=7),
    ],
)
def test_refused_acts_leave_nothing(book: Notebook, act: Any) -> None:
    book.add("run", run("", "R1"))
    with pytest.raises(AppError):
        act(book)
    assert len(book.entries(withdrawn=True)) == 1
    assert book.get("R1").revision == 1


def test_files_that_are_no_notebook(tmp_path: Path) -> None:
    text = tmp_path / "text.sqlite"
    text.write_text("a letter, not a notebook " * 100, encoding="utf-8")
    for path in (text, tmp_path / "none.sqlite", tmp_path):
        with pytest.raises(StoreError) as caught:
            Notebook.open(path)
        assert caught.value.fix
    with pytest.raises(StoreError):
        Notebook.create(text, "x")
    assert text.read_text(encoding="utf-8").startswith("a letter")
