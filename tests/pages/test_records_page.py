"""The page of records and notices: what must be told until when, what is written down, which limits hold."""

from __future__ import annotations

from typing import Any

from sample_document import sample

from parbuckle.brief.html_records import records
from parbuckle.brief.records_page import records_page
from parbuckle.brief.render import render_brief

READ = {"mark": "read", "source": "Act 1, s. 2", "date": "2026-11-25", "by": None}
OWN = {"mark": "own", "source": "permit <14>", "date": "2027-04-01", "by": "harbour"}
REGIME: dict[str, Any] = {
    "rules": "commercial",
    "country": "GB",
    "limits": [{"key": "deepest", "value": "25 m", "meaning": "Nobody dives deeper.", "instead_of": "30 m", **OWN}],
    "roles": [{"role": "timekeeper", "source": "harbour: permit <14>, 2027-04-01"}],
    "records": [{"what": "Dive record", "contains": ["date", "team"], "keep": "2 years", **READ}],
    "notices": [
        {
            "what": "Wreck", "to": "the receiver", "within": "28 d", "counts": "after the lift",
            "due": "2027-06-07T10:20+01:00", **READ,
        },
        {
            "what": "The lift", "to": None, "within": "2 h", "counts": "before the lift",
            "due": "2027-05-10T08:20+01:00", **OWN,
        },
        {"what": "Oil", "to": "the coast", "within": "at once", "counts": "after it happens", "due": None, **READ},
    ],
}  # fmt: skip


def test_clocks_sources_and_who_set_it() -> None:
    page = records_page({"regime": REGIME})
    assert page is not None
    wreck, lift, oil = page["notices"]
    assert (wreck["when"], wreck["due"]) == ("28 d after the lift", "until 10:20 on 7 Jun 2027")
    assert (lift["due"], lift["to"]) == ("before 08:20 on 10 May 2027", "whom: not told")
    assert (oil["when"], oil["due"]) == ("at once", "")
    assert wreck["source"] == "Act 1, s. 2, read on 2026-11-25"
    assert lift["source"] == "harbour: permit <14>, of 2027-04-01"
    assert page["limits"][0]["meaning"] == "Nobody dives deeper. Instead of 30 m."
    assert page["records"][0]["keep"] == "Keep: 2 years."


def test_nothing_to_say_is_no_page() -> None:
    empty = {"rules": "private", "country": None, "limits": [], "roles": [], "records": [], "notices": []}
    assert records_page({"regime": empty}) is None
    assert records_page({}) is None


def test_the_phone_page_says_the_same_and_escapes() -> None:
    page = records_page({"regime": REGIME})
    assert page is not None
    told = records(page)
    for words in ("until 10:20 on 7 Jun 2027", "timekeeper", "date, team", "Keep: 2 years.", "permit &lt;14&gt;"):
        assert words in told
    assert "<14>" not in told


def test_the_page_is_printed(pdf: Any) -> None:
    pages = pdf(render_brief({**sample(), "regime": REGIME}, "2027-04-13 22:10 +01:00")).pages()
    (page,) = [text for text in pages if "Records and notices" in text]
    assert "until 10:20 on 7 Jun 2027" in page
    assert not [
        text for text in pdf(render_brief(sample(), "2027-04-13 22:10 +01:00")).pages() if "Records and" in text
    ]
