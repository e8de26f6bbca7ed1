"""The page of drift: typed points, a setting of the notebook, figures, faults at their field."""

from __future__ import annotations

import re

import pytest

from ozonewright.bench.drift import drift_of_points
from ozonewright.demo.truth import AIR, SLOW
from ozonewright.show.drift_figures import left_over_figure, series_figure, titres_figure
from web.in_process import Pages

STORY = ("2 min: 0.92 g/h", "4 min: 0.81 g/h", "8 min: 0.76 g/h")


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_three_times_and_three_rates_without_a_notebook(bare: Pages) -> None:
    """2, 4, 8 min at 0.92, 0.81, 0.76 g/h are 30.67, 54.00, 101.33 mg: about 7 mg at no time."""
    assert "Do your runs disagree?" in bare.get("/drift").text
    text = plain(bare.get("/drift", params={"points": "\n".join(STORY)}).text)
    for words in (
        "Not determined.",
        "surplus of about 7 mg",
        "30.67",
        "wrong sign",
        "discharge off",
        "What the burette would read",
    ):
        assert words in text
    assert text.count('<svg class="plot"') == 3


def test_what_is_known_besides_is_used(bare: Pages) -> None:
    asked = {"points": "; ".join(STORY), "in_order": "yes", "start": "cold", "iodide": "4 g",
             "volume": "200 mL", "flow": "0.8 L/min", "rest": "15 min"}  # fmt: skip
    text = plain(bare.get("/drift", params=asked).text)
    assert "The trap is a usual one" not in text
    assert "order of the runs is not known" not in text
    with_blank = asked | {"field_blank": "4 min: 7 mg ± 0.1"}
    assert "etermined: a blank" in plain(bare.get("/drift", params=with_blank).text)


def test_settings_of_the_notebook_one_determined_one_not(example: Pages) -> None:
    text = plain(example.get("/drift", params={"setting": AIR}).text)
    assert "determined: a blank" in text
    assert "no further run is needed" in text
    assert "As titrated: the field blank A0 is not taken off." in text
    # What is out is one paragraph, not the lines of a terminal.
    assert re.search(r"<p[^>]*>Ruled out: [^<]*\(alone, no size of it fits all runs\)\.</p>", text)
    assert "blank-surplus" not in re.sub(r"<option.*?>", "", text)
    text = plain(example.get("/drift", params={"setting": SLOW}).text)
    assert "not determined" in text
    assert "bits" in text


def test_the_page_of_a_setting_leads_here(example: Pages) -> None:
    text = example.get("/setting", params={"name": AIR}).text
    for path in ("/drift?setting=", "/compare?first=", "/claim?setting="):
        assert f'href="{path}{AIR.replace(" ", "%20").replace("/", "%2F")}"' in text
    assert "Surplus not ruled out" not in text
    assert example.get("/claim", params={"setting": AIR}).status_code == 200


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        ({"points": "2 min: 0.92 g/h\n4 min"}, "points"),
        ({"points": "2 min: <b>1</b>\n4 min: 0.81 g/h"}, "points"),
        ({"points": "\n".join(STORY), "iodide": "four"}, "iodide"),
        ({"points": "\n".join(STORY), "rest": "15"}, "rest"),
    ],
)
def test_faults_are_at_their_field(bare: Pages, asked: dict[str, str], place: str) -> None:
    reply = bare.get("/drift", params=asked)
    assert reply.status_code == 422
    assert f'id="{place}-mend"' in reply.text
    assert "<b>1</b>" not in reply.text


def test_one_run_is_told_what_it_lacks(bare: Pages) -> None:
    reply = bare.get("/drift", params={"points": STORY[0]})
    assert reply.status_code == 422
    assert "drift needs two runs" in reply.text


def test_an_unknown_setting_is_told_with_the_nearest(example: Pages) -> None:
    reply = example.get("/drift", params={"setting": "pump air"})
    assert reply.status_code == 422
    assert "pump air" in reply.text


def test_of_very_many_runs_the_last_are_weighed(
    example: Pages, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ozonewright.web.pages.drift.MOST_RUNS", 3)
    text = plain(example.get("/drift", params={"setting": AIR, "start": "diverted"}).text)
    assert "The last 3 runs." in text
    assert ">A1<" not in text
    assert ">A0<" in text


def heights(path: str) -> list[float]:
    return [float(up) for _, up in re.findall(r"([\d.]+) ([\d.]+)", path)]


def test_figures_draw_what_was_read() -> None:
    found = drift_of_points(STORY)
    series, left = series_figure(found), left_over_figure(found)
    for figure in (series, left):
        assert figure.count("<circle") == 3
        assert figure.count('class="band"') == 1
        assert figure.count('class="line"') == 1
    # the slope taken off a line leaves a level line
    (line,) = re.findall(r'class="line" d="M([^"]*)"', left)
    assert max(heights(line)) - min(heights(line)) < 0.2
    (rising,) = re.findall(r'class="line" d="M([^"]*)"', series)
    assert heights(rising)[0] > heights(rising)[-1] + 50.0
    assert 2 <= left.count('class="chain"') <= 3
    first = found.next[0]
    titres = titres_figure(first, "0.1 mol/L")
    assert titres.count("<circle") == len(first.titre)
    assert "mL of 0.1 mol/L" in titres


def test_runs_of_equal_minutes_have_no_line() -> None:
    found = drift_of_points(["4 min: 0.92 g/h", "4 min: 0.81 g/h", "4 min: 0.86 g/h"])
    assert left_over_figure(found) == ""
    assert 'class="line"' not in series_figure(found)
