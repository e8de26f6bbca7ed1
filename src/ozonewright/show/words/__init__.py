"""The sentence of every note code; one file per question."""

from collections.abc import Callable

from ozonewright.results import Note
from ozonewright.show.words.output import NEXT as OUTPUT_NEXT
from ozonewright.show.words.output import NOTES as OUTPUT_NOTES
from ozonewright.show.words.output import WORKING as OUTPUT_WORKING
from ozonewright.show.words.recipe import NOTES as RECIPE_NOTES
from ozonewright.show.words.setting import NOTES as SETTING_NOTES

SENTENCES: dict[str, Callable[..., str]] = {
    **OUTPUT_NOTES,
    **OUTPUT_NEXT,
    **OUTPUT_WORKING,
    **RECIPE_NOTES,
    **SETTING_NOTES,
}


def sentence(note: Note) -> str:
    """Return the words of a note."""
    return SENTENCES[note.code](**note.values)
