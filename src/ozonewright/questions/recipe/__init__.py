"""Recipe: how to set up the next titration."""

from ozonewright.questions.recipe.plan import Recipe, Wish, recipe

__all__ = ["Recipe", "Wish", "recipe"]
