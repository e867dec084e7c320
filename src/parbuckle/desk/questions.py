"""The ten first questions of a case, the document that their answers make, and what to find out next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from parbuckle.desk.finding_places import place_of_finding, stage_of_lack
from parbuckle.desk.first_team import first_team
from parbuckle.desk.form_words import suggestions

Question = dict[str, Any]

HAZARDS = {
    "ordnance": "ordnance",
    "remains or evidence": "remains_or_evidence",
    "protected": "protected",
    "fuel or oil": "fuel",
    "live electrics": "electrics",
    "snags, nets, cables": "snags",
    "boats, swimmers": "traffic",
}
"""Words of the sixth question, and the keys of the case that they answer."""

NONE_OF_THESE = "none of these"
"""The word that answers all hazards with no; only somebody who asked may say it."""


def questions() -> list[Question]:
    """Give the ten first questions, in their order.

    Returns
    -------
    list of dict
        ``n``, ``key``, ``ask``, ``help``, ``type``, ``kind``, ``choices``, ``path``; ``also`` holds a second short
        question of the same form where the first answer needs one.
    """
    rows = list(_rows())
    return [{"n": number, **row} for number, row in enumerate(rows, 1)]


def _rows() -> Iterator[Question]:
    yield _row("what", "What is it?", "In a few words. The list helps.", "text", ["object", "name"], "known_as")
    yield _row("where", "Where was it lost?", "The place, as everybody there calls it.", "text", ["site", "name"])
    yield _row("depth", "How deep is it there?", "A guess is good: 8..14 m.", "value", ["site", "depth"], "length")
    yield _row("water", "Fresh water or sea?", "", "word", ["site", "water"], choices=["fresh", "sea"])
    material = _row("material", "Made of?", "Mostly.", "text", ["object", "part", 0, "material"], "material")
    told = "As it was told, with a spread: 35..45 kg. In air."
    mass = _row("mass", "How heavy is it said to be?", told, "value", ["object", "part", 0, "mass"], "mass")
    yield {**mass, "also": [material]}
    why = "All that may be there. 'None of these' only if you asked."
    words = [*HAZARDS, NONE_OF_THESE]
    yield _row("hazards", "May it be touched?", why, "words", ["hazards"], choices=words)
    site = _row("site_owner", "And who controls the place?", "", "text", ["permission", "site"], "said")
    owner = _row("owner", "Who owns it, and did they say yes?", "", "text", ["permission", "owner"], "said")
    yield {**owner, "also": [site]}
    yield _row("bottom", "What is the bottom?", "", "word", ["site", "bottom"], "bottom")
    yield _row("divers", "How many divers go?", "Names and kit come from the kit.", "number", ["dive", 0, "team"])
    yield _row("when", "When?", "Day and hour of leaving the surface.", "time", ["dive", 0, "start"])


def _row(
    key: str, ask: str, told: str, sort: str, path: list[str | int], of: str = "", choices: list[str] | None = None
) -> Question:
    words = {
        "known_as": ("known_as",),
        "material": ("material",),
        "bottom": ("site", "bottom"),
        "said": ("permission",),
    }
    listed = suggestions(words[of]) if of in words else choices or []
    kind = of if sort == "value" else None
    return {
        "key": key,
        "ask": ask,
        "help": told,
        "type": sort,
        "kind": kind,
        "choices": listed,
        "path": path,
        "also": [],
    }


def case_from_answers(answers: Mapping[str, Any], kit: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Make the document of a case from the answers; what was not answered is left out.

    Parameters
    ----------
    answers : mapping
        By the key of the question; also ``title`` and ``supervisor``. Values are kept as they were typed.
    kit : mapping, optional
        The document of the kit: the team and the cylinders are proposed out of it.

    Returns
    -------
    dict
        A document that can be planned at once.
    """
    said = {key: value for key, value in answers.items() if value not in (None, "", [], "unknown")}
    what, where = str(said.get("what", "")).strip(), str(said.get("where", "")).strip()
    title = str(said.get("title") or ", ".join(word for word in (what, where) if word) or "New case")
    document: dict[str, Any] = {"schema": 1, "case": _told({"title": title, "supervisor": said.get("supervisor")})}
    document["permission"] = _told({"owner": said.get("owner"), "site": said.get("site_owner")})
    document["hazards"] = _hazards(said.get("hazards", []))
    place = {
        "name": where or None,
        "water": said.get("water"),
        "depth": said.get("depth"),
        "bottom": said.get("bottom"),
    }
    document["site"] = _told(place)
    document["object"] = _object(what, said)
    lift, dive = first_team(said, kit)
    document |= {"lift": lift, "dive": dive}
    return {key: value for key, value in document.items() if value}


def _told(table: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in table.items() if value is not None}


def _hazards(words: Any) -> dict[str, str]:
    """Each hazard that was named is 'yes', whatever else was said; all are 'no' only when nothing but that was said."""
    named = words if isinstance(words, list) else [words]
    found = {HAZARDS[word]: "yes" for word in named if word in HAZARDS}
    return dict.fromkeys(HAZARDS.values(), "no") if not found and NONE_OF_THESE in named else found


def _object(what: str, said: Mapping[str, Any]) -> dict[str, Any]:
    """A mass that was told is one part; without one a known object stands in."""
    thing: dict[str, Any] = {"name": what} if what else {}
    if "mass" in said:
        part = {"name": what or "the whole", "mass": said["mass"], "material": said.get("material"), "how": "told"}
        return {**thing, "part": [_told(part)]}
    known = what.casefold().split(",")[0].strip()
    if any(known == name.casefold() for name in suggestions(("known_as",))):
        thing["known_as"] = what
    return thing


def missing(plan: Mapping[str, Any], case: Mapping[str, Any], kit: Mapping[str, Any] | None) -> list[dict[str, Any]]:
    """List what is still missing, by how much it matters.

    Parameters
    ----------
    plan : mapping
        The plan document.
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.

    Returns
    -------
    list of dict
        ``what``, ``why``, ``key``, ``of``, ``path``, ``stage``, ``share`` (of the spread of the weight, where it has
        one). First what a stage cannot do without, then questions without an answer, then what drives the weight, then
        every other default.
    """
    from parbuckle.case.key_paths import place_of

    rows = [*_lacking(plan), *_not_answered(plan), *_spreading(plan)]
    for row in rows:
        row["of"], path = place_of(row["key"], case, kit)
        row["path"] = list(path)
    return [{"share": None, **row} for row in rows]


def _lacking(plan: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for row in plan["unanswered"]:
        yield {"what": row["why"], "why": "needed", "key": row["key"], "stage": stage_of_lack(row)}


def _not_answered(plan: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for row in plan["findings"]:
        if row["level"] == "unanswered" and row["code"] != "input_missing":
            yield {"what": row["text"], "why": row["do"], **place_of_finding(row, plan)}


def _spreading(plan: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """What drives the weight, the most first; then every default that does not."""
    assumed = {row["key"]: row["why"] for row in plan["find_out_first"]}
    for row in plan.get("load", {}).get("drivers", []):
        if row["key"] != "together":
            why = assumed.pop(row["key"], "told with a spread")
            yield {"what": row["input"], "why": why, "key": row["key"], "stage": "object", "share": row["share"]}
    for key, why in assumed.items():
        yield {"what": why, "why": "a wide default stands in", "key": key, "stage": stage_of_lack({"key": key})}
