"""Tables of what `drift.py` recorded: python benchmarks/drift_table.py FILE.jsonl …

*Left open* in the rows of group: slip and oxidation by air are called steady, with a note that they
are invisible, while no run has a guard bottle or its discharge off. These are told apart.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from pathlib import Path

from drift import FURTHER, Outcome, right

from ozonewright.questions.drift.labels import class_of, family_of

LEVELS: dict[str, Callable[[str], str]] = {"cause": str, "group": family_of, "class": class_of}


def read(paths: Sequence[Path]) -> list[tuple[str, Outcome]]:
    """Return the worlds and what was said of each."""
    found = []
    for path in paths:
        for line in path.read_text(encoding="utf-8").splitlines():
            row = json.loads(line)
            name, _ = row.pop("world"), row.pop("seed")
            lists = {key: tuple(value) for key, value in row.items() if isinstance(value, list)}
            found.append((name, Outcome(**(row | lists))))
    return found


def said(outcome: Outcome, step: int, how: Callable[[str], str]) -> str:
    """Return ``right``, ``wrong``, ``open``, or ``hidden`` for steady where nothing could show."""
    place = min(step, len(outcome.verdicts) - 1)
    found = right(outcome, step, how)
    if found is False and outcome.hidden[place] and outcome.verdicts[place] == "steady":
        return "hidden"
    return {True: "right", False: "wrong", None: "open"}[found]


def rates(games: Sequence[Outcome], how: Callable[[str], str]) -> Iterator[str]:
    """Yield right / wrong / hidden after 0, 1, 2, 3 further runs, in per cent."""
    for step in range(FURTHER + 1):
        words = [said(one, step, how) for one in games]
        share = [100.0 * words.count(word) / len(words) for word in ("right", "wrong", "hidden")]
        yield " / ".join(f"{one:.0f}" for one in share)


def main(paths: Sequence[Path]) -> None:
    """Print the tables."""
    rows = read(paths)
    print("right / wrong / invisible, % after 0, 1, 2, 3 further runs\n")
    print("| worlds | plan | level | number | 0 | 1 | 2 | 3 |\n|---|---|---|---|---|---|---|---|")
    kinds = {(one.size, one.plan, False) for _, one in rows}
    kinds |= {(one.size, one.plan, True) for _, one in rows}
    outside = ("power-law", "two-at-once", "wrong-order", "u-three-times-too-small")
    for size, plan, is_outside in sorted(kinds, reverse=True):
        games = [
            one
            for name, one in rows
            if (one.size, one.plan, name in outside) == (size, plan, is_outside)
        ]
        for level, how in LEVELS.items():
            if games and not (is_outside and level != "group"):
                where = "outside" if is_outside else "inside"
                told = " | ".join(rates(games, how))
                print(f"| {size:g} ×, {where} | {plan} | {level} | {len(games)} | {told} |")
    _each(rows)
    _reliability([one for name, one in rows if name not in outside and one.plan == "ours"])


def _each(rows: Sequence[tuple[str, Outcome]]) -> None:
    print("\n| world | size | number | 0 | 1 | 2 | 3 | false name, of these warned |")
    print("|---|---|---|---|---|---|---|---|")
    for name, size in sorted({(name, one.size) for name, one in rows if one.plan == "ours"}):
        games = [one for n, one in rows if (n, one.size, one.plan) == (name, size, "ours")]
        false = [one for one in games if said(one, FURTHER, family_of) == "wrong"]
        warned = sum(one.warned[-1] for one in false)
        told = " | ".join(rates(games, family_of))
        print(f"| {name} | {size:g} × | {len(games)} | {told} | {len(false)}, {warned} |")


def _reliability(games: Sequence[Outcome]) -> None:
    """Print how often the leading group was right, by the probability it was given."""
    print("\n| probability of the leading group | number | right, % |\n|---|---|---|")
    edges = (0.0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 1.0001)
    pairs = [
        (chance, leader in {family_of(truth) for truth in one.truths})
        for one in games
        for (leader, chance), hidden in zip(one.leaders, one.hidden, strict=True)
        if not hidden
    ]
    for low, high in pairwise(edges):
        hits = [is_right for chance, is_right in pairs if low <= chance < high]
        if hits:
            share = 100.0 * sum(hits) / len(hits)
            print(f"| {low:g} to {min(high, 1.0):g} | {len(hits)} | {share:.0f} |")


if __name__ == "__main__":
    main([Path(name) for name in sys.argv[1:]])
