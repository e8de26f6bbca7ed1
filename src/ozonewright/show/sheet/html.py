"""Blocks as HTML; every text is escaped, every figure stands inline."""

from __future__ import annotations

from html import escape as escaped

from ozonewright.show.harmless import harmless
from ozonewright.show.ink import NO_XML
from ozonewright.show.pages import Answer
from ozonewright.show.sheet.blocks import (
    HEAD,
    Block,
    Figure,
    Lines,
    Notes,
    Section,
    Table,
    Text,
    TitleBlock,
)

KEPT = (" ± ", " × ", " ÷ ", " − ")


def escape(text: str) -> str:
    """Return text for a page, without what would turn its letters about."""
    return escaped(harmless(text))


def spaced(text: str) -> str:
    """Return escaped text whose numbers stay on one line with their ±."""
    for sign in KEPT:
        text = text.replace(sign, sign.replace(" ", "\u00a0", 1))
    return escape(text)


def section_html(section: Section, mark: str) -> str:
    """Return one section; `mark` tells its ids from those of others."""
    level = section.level + 1
    body = "".join(
        block_html(block, f"{mark}-{place}", level + 1)
        for place, block in enumerate(section.blocks)
    )
    if section.kind == HEAD:
        return f"<h1>{escape(section.title)}</h1>{body}\n"
    return (
        # not named: two runs may have one label, and landmarks of one name lead nowhere
        f'<section class="{section.kind}"><h{level} id="{mark}">'
        f"{escape(section.title)}</h{level}>{body}</section>\n"
    )


def block_html(block: Block, mark: str, level: int = 3) -> str:
    """Return one block."""
    if isinstance(block, Text):
        return f"<p{' class=soft' if block.soft else ''}>{spaced(block.text)}</p>"
    if isinstance(block, Answer):
        return _answer(block)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figure):
        return _figure(block, mark)
    if isinstance(block, Lines):
        name = "ol" if block.numbered else "ul"
        items = "".join(f"<li>{spaced(line)}</li>" for line in block.lines)
        return f"<h{level}>{escape(block.head)}</h{level}><{name}>{items}</{name}>"
    return _notes(block, level)


def _answer(found: Answer) -> str:
    unit = f"&nbsp;{escape(found.unit)}" if found.unit else ""
    beside = f' <span class="beside">{spaced(found.beside)}</span>' if found.beside else ""
    kind = "answer" if found.determined else "answer told"
    lines = [f'<p class="{kind}"><span>{spaced(found.number)}{unit}</span>{beside}</p>']
    lines += [f"<p>{spaced(text)}</p>" for text in (found.basis, found.sureness) if text]
    return "".join(lines)


def _table(table: Table) -> str:
    def cells(row: tuple[str, ...]) -> str:
        return "".join(
            f"<th scope=row>{spaced(cell)}</th>"
            if place == 0 and cell
            else f"<td class=number>{spaced(cell)}</td>"
            if place in table.numbers
            else f"<td>{spaced(cell)}</td>"
            for place, cell in enumerate(row)
        )

    head = "".join(
        f"<th scope=col{' class=number' if place in table.numbers else ''}>{escape(text)}</th>"
        if text
        else "<td></td>"
        for place, text in enumerate(table.head)
    )
    rows = "".join(f"<tr>{cells(row)}</tr>" for row in table.rows)
    return (
        f"<table><caption>{escape(table.caption)}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _figure(figure: Figure, mark: str) -> str:
    # Drawings name their own title and words by id; two on one page must not share them.
    svg, narrow = (
        NO_XML.sub("\ufffd", one)
        .replace("rig-across-", f"{mark}-across-")
        .replace("rig-down-", f"{mark}-down-")
        for one in (figure.svg, figure.narrow)
    )
    caption = figure.caption or figure.title
    words = f"<details><summary>In words</summary><p>{spaced(figure.words)}</p></details>"
    kind = ' class="line"' if figure.wide else ""
    return f"<figure{kind}>{svg}{narrow}<figcaption>{spaced(caption)}{words}</figcaption></figure>"


def _notes(notes: Notes, level: int) -> str:
    items = "".join(
        f'<li class="{one.level}"><span><span aria-hidden=true>{one.mark}</span> '
        f"<b>{escape(one.word)}</b></span> <span>{spaced(one.text)}</span></li>"
        for one in notes.remarks
    )
    return f'<h{level}>{escape(notes.head)}</h{level}><ul class="notes">{items}</ul>'


def title_block_html(block: TitleBlock) -> str:
    """Return what closes the page."""
    rows = (
        ("notebook", block.notebook),
        ("rig, revision", block.rig),
        ("last entry", block.last),
        ("ozonewright", block.version),
        ("date, initials", ""),
    )
    cells = "".join(
        f"<div><dt>{word}</dt><dd>{escape(text) or '&nbsp;'}</dd></div>" for word, text in rows
    )
    return f'<footer class="block"><dl>{cells}</dl></footer>'
