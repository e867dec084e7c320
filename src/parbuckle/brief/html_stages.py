"""The other pages of the brief in HTML: the way up, the search, the dives, emergencies, the supervisor's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.html_words import figure, pairs, paragraphs, part, say, table, tag

View = Mapping[str, Any]


def way(page: View) -> str:
    """Give the way up, or down.

    Parameters
    ----------
    page : mapping
        ``way`` of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    told = [_control(page["control"])] if page["control"] else []
    told += [_drawn(page["fans"][:1], "f")] if page["fans"] else []
    told.append(pairs(page["circles"]))
    if page["line"]:
        line = page["line"]
        told.append(part("On the line", pairs(line["rows"]) + paragraphs([*line["words"], line["grow"]])))
        told.append(part("If the line parts", paragraphs([line["parts"]])))
    for row in page["phases"]:
        who = f"By: {row['who']}" if row["who"] else ""
        told.append(part(f"{row['n']}. {row['name']}", paragraphs([*row["words"], who]) + pairs(row["rows"])))
    told.append(_drawn([page["alone"]] if page["alone"] else [], "a"))
    if page["down"]:
        down = page["down"]
        rows = [(row["depth"], row["gas"], row["pull"]) for row in down["depths"]]
        told.append(part(str(down["way"]).capitalize(), pairs(down["rows"]) + paragraphs(down["words"])))
        told.append(part("On the way", table("On the way", ("Depth", "Gas in the bag, free", "On the line"), rows)))
        told.append(part("If it is let go", paragraphs([down["fall"]])))
    return "".join(told)


def _control(page: View) -> str:
    expect = [{"label": row["depth"], "value": row["words"], "other": ""} for row in page["expect"]]
    who = [{"label": f"{row['name']}, {row['role']}", "value": row["does"], "other": ""} for row in page["who"]]
    let_go = tag(
        "div",
        tag("ul", paragraphs(page["let_go"], "li")) + tag("p", "Let go, never chase. Anyone may say it."),
        class_="box",
    )
    card = tag("div", tag("ol", paragraphs(page["card"], "li")), class_="slate")
    parts = [
        part("Limits", pairs(page["limits"])),
        part("What to expect", pairs(expect)),
        part("The dump", paragraphs([page["policy"]])),
        part("Who does what", pairs(who)),
        part("Let go if", let_go if page["let_go"] else ""),
        part("If it runs away", card if page["card"] else ""),
    ]
    lead = f"<b>{say(str(page['state']).capitalize())}.</b> {say(page['for_all'])}"
    return tag("p", lead, class_="lead") + tag("div", "".join(parts), class_="parts") + paragraphs([page["people"]])


def _drawn(drawings: Sequence[View], mark: str, zoom: float = 1.0) -> str:
    told = "".join(figure(each, f"{mark}{n}", zoom) for n, each in enumerate(drawings))
    return tag("div", told, class_="drawings") if told else ""


def search(page: View) -> str:
    """Give the search.

    Parameters
    ----------
    page : mapping
        ``search`` of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    ways = [(r["pattern"], r["chance"], r["of_bound"], r["minutes"], r["why"]) for r in page["ways"]]
    accounts = [(r["who"], r["words"], r["weight"], r["radius"]) for r in page["accounts"]]
    passes = [(r["n"], r["pattern"], r["completed"], r["chance"], r["from"]) for r in page["passes"]]
    proved = page["proved"]
    return "".join(
        (
            tag("p", f"<b>{say(page['headline'])}</b>", class_="lead") if page["headline"] else "",
            paragraphs([page["window"], *page["cautions"]]),
            _drawn(page["maps"][:1], "m"),
            pairs(page["numbers"]),
            part("Told", table("What was told", ("Who", "What", "Weight", "19 of 20 within"), accounts)),
            part("Patterns", table("Patterns", ("Pattern", "Chance", "Of the best", "Time", "How"), ways)),
            part(
                "Passes that found nothing",
                table("Passes", ("Pass", "Pattern", "Swum", "Chance it had", "From"), passes),
            ),
            part("Proved", pairs(proved["rows"]) + paragraphs([proved["words"], proved["stop"]])) if proved else "",
            paragraphs([f"Sweep width: {page['sweep']}." if page["sweep"] else "", page["law"]]),
        )
    )


def dive(page: View, number: int) -> str:
    """Give one dive.

    Parameters
    ----------
    page : mapping
        One of ``dives`` of the brief's view.
    number : int
        Its number on the page.

    Returns
    -------
    str
        HTML.
    """
    team = "; ".join(f"{row['name']}, {row['role']}" for row in page["team"])
    tasks = [(row["n"] or "·", row["does"], row["takes"], row["done"]) for row in page["tasks"]]
    notes = "".join(part(row["label"], paragraphs(row["texts"])) for row in page["notes"])
    return "".join(
        (
            tag("p", f"<b>{say(page['time'])}</b> {say(page['day'])}", class_="lead"),
            paragraphs([team]),
            pairs(page["limits"]),
            _drawn(page["pictures"][:1], f"d{number}"),
            tag("div", "".join(_diver(row) for row in page["divers"]), class_="parts"),
            part(
                "What takes how long", table(f"Tasks of dive {number}", ("No.", "Task", "Takes", "Done at min"), tasks)
            ),
            tag("div", notes, class_="parts"),
            paragraphs([page["models"]]),
            tag("p", f"<b>{say(page['caution'])}</b>"),
        )
    )


def _diver(row: View) -> str:
    labels = {
        "start": "At the start",
        "leaving": "When leaving",
        "end": "Left at the end",
        "no_stop": "No stop: model / table",
        "shared": "Two up on one supply",
        "group": "Group: before, after",
    }
    leave = tag("p", f"Leave the bottom at <b>{say(row['leave'])}</b> <small>{say(row['other'])}</small>", class_="box")
    rows = [{"label": label, "value": row[key]} for key, label in labels.items() if row[key]]
    title = f"{row['name']}, {row['role']}, {row['gas']}"
    return part(title, leave + pairs(rows) + paragraphs([*row["carried"], row["watch"]]))


def emergency(page: View) -> str:
    """Give the calls and the cards for when something goes wrong.

    Parameters
    ----------
    page : mapping
        ``emergency`` of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    cards = "".join(
        part(
            card["title"],
            paragraphs(card["texts"]) if card["told"] else tag("p", "Not told. Agree on it before anybody goes in."),
        )
        for card in page["cards"]
    )
    return tag("div", pairs(page["calls"]), class_="box") + tag("div", cards, class_="parts")


def supervisor(page: View) -> str:
    """Give the supervisor's page: what drives the answer, the other ways, rigging, sums, sources.

    Parameters
    ----------
    page : mapping
        ``second`` of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    methods = [(r["method"], r["possible"], r["why"], r["surplus"], r["time"]) for r in page["methods"]]
    rigging = [(r["item"], r["load"], r["limit"], r["factor"], r["source"]) for r in page["rigging"]]
    sums = [(r["name"], r["formula"], r["numbers"], r["result"], r["source"]) for r in page["sums"]]
    others = [(r["bags"], r["why"], r["sentence"]) for r in page["alternatives"]]
    control = page["control"]
    chances = pairs(control["chances"]) + pairs(control["numbers"]) if control else ""
    return "".join(
        (
            paragraphs([page["again"]]),
            part("What drives the weight", pairs(page["drivers"])),
            part("Find out first", tag("ul", paragraphs(page["find"], "li")) if page["find"] else ""),
            part("Not worked out", tag("ul", paragraphs(page["open"], "li")) if page["open"] else ""),
            part("Ways up", table("Ways up", ("Way", "Possible", "Why", "Over", "Takes"), methods)),
            part("Other bags", table("Other bags", ("Bags", "Why not", "Then"), others)),
            part("Rigging", table("Rigging", ("Item", "Pull", "Limit", "Factor", "Source"), rigging)),
            part("The ascent", paragraphs(page["chances"]) + pairs(page["ascent"]) + chances),
            _drawn([each for each in (page["picture"], *page["pictures"]) if each], "p"),
            part("At the surface", pairs(page["surface"])),
            part("The place", pairs(page["site"])),
            part("Estimates", pairs(page["estimates"])),
            part("Sums", table("Sums", ("Number", "Formula", "With", "Gives", "Source"), sums)),
            part("Sources", tag("ul", paragraphs(page["sources"], "li")) if page["sources"] else ""),
            paragraphs(page["about"]),
        )
    )
