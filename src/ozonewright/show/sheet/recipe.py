"""A recipe on a sheet."""

from __future__ import annotations

from ozonewright.questions.recipe import Recipe
from ozonewright.show.pages import remarks
from ozonewright.show.recipe import answer_line, steps
from ozonewright.show.sheet.blocks import Lines, Notes, Section, Text, kept


def recipe_section(plan: Recipe) -> Section:
    """Return the section of a recipe."""
    blocks = (
        Text(f"{answer_line(plan)}."),
        Lines("Steps", tuple(steps(plan)), numbered=True),
        Notes("Notes", remarks(plan.notes)),
    )
    return Section("Recipe", "recipe", kept(blocks), plan.sources, ("recipe",))
