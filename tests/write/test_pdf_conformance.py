"""The PDFs are what they claim: PDF/A-3, level A (ISO 19005-3) and PDF/UA-1 (ISO 14289-1).

A checker that is not ours (the package page-validation, which knows the rules of both standards) says so as a whole;
what matters most is looked at with pikepdf as well. Numbers of clauses are those of the standards, from memory.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import page as checker
import pikepdf
import pytest
from pikepdf import Name

from fieldnotes.write import Contents

from .generated_visits import transcript_of, visit_of_eighty
from .pdf_reader import attached, contents_of, file_of
from .test_pdf_paper import png_of_a_pixel
from .visits import FULL, LONG_TRANSCRIPT, LONG_WORDS, NO_TRANSCRIPT, NOTHING_HEARD

DOCUMENTS = ("report.pdf", "claim.pdf", "customer.pdf")
PROFILES = {"PDF/A-3a": checker.ValidationProfile.PDF_A_3A, "PDF/UA-1": checker.ValidationProfile.PDF_UA_1}
XMP = {
    "pdfaid": "http://www.aiim.org/pdfa/ns/id/",
    "pdfuaid": "http://www.aiim.org/pdfua/ns/id/",
    "dc": "http://purl.org/dc/elements/1.1/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
}


def strange() -> Contents:
    job = FULL.job.model_copy(
        update={
            "customer": "רחל כהן",
            "technician": "ليلى",
            "number": "中 x\u030c \U0001f468\u200d\U0001f527",
        }
    )
    return contents_of(FULL.model_copy(update={"job": job}))


VISITS: dict[str, Callable[[], Contents]] = {
    "full": contents_of,
    "nothing heard": lambda: contents_of(NOTHING_HEARD, NO_TRANSCRIPT),
    "long words": lambda: contents_of(LONG_WORDS, LONG_TRANSCRIPT),
    "eighty items": lambda: contents_of(visit_of_eighty(), transcript_of(visit_of_eighty())),
    "strange names": strange,
}


@cache
def document(name: str, visit: str = "full") -> bytes:
    return file_of(name, VISITS[visit]())


@pytest.fixture(params=DOCUMENTS)
def file(request: pytest.FixtureRequest) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(document(request.param))) as opened:
        yield opened


def faults(content: bytes, profile: str) -> list[str]:
    found = checker.validate_pdf_bytes(content, profile=PROFILES[profile])
    return [f"{fault.rule_id}: {fault.message}" for fault in found.failures]


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("name", DOCUMENTS)
@pytest.mark.parametrize("visit", VISITS)
def test_checker_finds_nothing(name: str, visit: str, profile: str) -> None:
    assert faults(document(name, visit), profile) == []


@pytest.mark.parametrize("profile", PROFILES)
def test_checker_finds_nothing_with_a_logo_that_is_half_transparent(tmp_path: Path, profile: str) -> None:
    (tmp_path / "logo.png").write_bytes(png_of_a_pixel())

    assert faults(file_of("report.pdf", contents_of(logo=tmp_path / "logo.png", name="Fell")), profile) == []


def _without_profile(file: pikepdf.Pdf) -> None:
    del file.Root.OutputIntents


def _with_script(file: pikepdf.Pdf) -> None:
    file.Root.OpenAction = pikepdf.Dictionary(S=Name.JavaScript, JS=pikepdf.String("app.alert(1)"))


def _without_fonts(file: pikepdf.Pdf) -> None:
    for font in fonts_of(file):
        descriptor = font.DescendantFonts[0].FontDescriptor
        for key in ("/FontFile2", "/FontFile3"):
            if key in descriptor:
                del descriptor[key]


def _without_structure(file: pikepdf.Pdf) -> None:
    del file.Root.StructTreeRoot


def _without_language(file: pikepdf.Pdf) -> None:
    del file.Root.Lang


def _without_relationship(file: pikepdf.Pdf) -> None:
    for each in file.Root.AF:
        del each.AFRelationship


@pytest.mark.parametrize(
    ("spoil", "profile"),
    [
        (_without_profile, "PDF/A-3a"), (_with_script, "PDF/A-3a"), (_without_fonts, "PDF/A-3a"),
        (_without_structure, "PDF/A-3a"), (_without_relationship, "PDF/A-3a"), (_without_structure, "PDF/UA-1"),
        (_without_language, "PDF/UA-1"), (_without_fonts, "PDF/UA-1"),
    ],
    ids=lambda value: value if isinstance(value, str) else value.__name__.lstrip("_"),
)  # fmt: skip
def test_checker_sees_a_spoiled_file(spoil: Callable[[pikepdf.Pdf], None], profile: str) -> None:
    """The checker's silence above means something."""
    spoiled = io.BytesIO()
    with pikepdf.open(io.BytesIO(document("report.pdf"))) as opened:
        spoil(opened)
        opened.save(spoiled)

    assert faults(spoiled.getvalue(), profile) != []


def test_metadata_claims_both_standards_and_agrees_with_the_information(file: pikepdf.Pdf) -> None:
    """ISO 19005-3, 6.6.4 (identification) and 6.6.3 (document information); ISO 14289-1, 5."""
    metadata = file.open_metadata()
    keys = (
        "pdfaid:part", "pdfaid:conformance", "pdfuaid:part", "dc:title", "dc:creator", "pdf:Keywords",
        "xmp:CreateDate", "xmp:ModifyDate",
    )  # fmt: skip
    said = {key: metadata.get(f"{{{XMP[key.split(':')[0]]}}}{key.split(':')[1]}") for key in keys}
    information = {str(key): str(value) for key, value in file.docinfo.items()}
    date = re.sub(
        r"D:(....)(..)(..)(..)(..)(..)Z",
        r"\1-\2-\3T\4:\5:\6+00:00",
        information["/CreationDate"],
    )

    assert said == {
        "pdfaid:part": "3", "pdfaid:conformance": "A", "pdfuaid:part": "1",
        "dc:title": information["/Title"], "dc:creator": [information["/Author"]],
        "pdf:Keywords": information["/Keywords"], "xmp:CreateDate": date, "xmp:ModifyDate": date,
    }  # fmt: skip


def test_document_is_tagged_titled_and_says_its_language(file: pikepdf.Pdf) -> None:
    """ISO 14289-1, 7.1 and 7.2."""
    assert bool(file.Root.MarkInfo.Marked) is True
    assert str(file.Root.Lang) == "en"
    assert bool(file.Root.ViewerPreferences.DisplayDocTitle) is True
    assert file.Root.StructTreeRoot.K is not None
    kinds = {str(kind) for kind in _kinds(file.Root.StructTreeRoot.K)}
    assert {"/Document", "/H1"} <= kinds


def test_tables_have_heads_and_drawings_have_words() -> None:
    """ISO 14289-1, 7.5 (tables) and 7.3 (graphics)."""
    with pikepdf.open(io.BytesIO(document("report.pdf"))) as file:
        kinds = [str(kind) for kind in _kinds(file.Root.StructTreeRoot.K)]
        words = [
            str(each.Alt) for each in _elements(file.Root.StructTreeRoot.K) if each.get("/S") == Name.Figure
        ]

    assert kinds.count("/Table") == 3  # check list, readings, what is missing
    assert kinds.count("/TH") == 3 + 3 + 2
    assert [text.split(".")[0] for text in words] == ["Timeline of 12:00"]


def test_output_intent_is_a_profile_of_colours(file: pikepdf.Pdf) -> None:
    """ISO 19005-3, 6.2.3; ICC.1, 7.2: a profile says "acsp" at byte 36."""
    (intent,) = file.Root.OutputIntents

    assert intent.S == Name.GTS_PDFA1
    assert bytes(intent.DestOutputProfile.read_bytes())[36:40] == b"acsp"


def fonts_of(file: pikepdf.Pdf) -> list[Any]:
    return [
        each
        for each in file.objects
        if isinstance(each, pikepdf.Dictionary)
        and each.get("/Type") == Name.Font
        and "/DescendantFonts" in each
    ]


def test_every_font_is_embedded_and_its_signs_have_a_meaning(file: pikepdf.Pdf) -> None:
    """ISO 19005-3, 6.2.11.4 (embedding) and 6.2.11.7 (mapping to Unicode)."""
    fonts = fonts_of(file)
    simple = [
        each for each in file.objects
        if isinstance(each, pikepdf.Dictionary) and each.get("/Subtype") in (Name.Type1, Name.TrueType, Name.Type3)
        and each.get("/Type") == Name.Font
    ]  # fmt: skip

    assert simple == []
    assert len(fonts) >= 3  # upright, strong, signs
    for font in fonts:
        descriptor = font.DescendantFonts[0].FontDescriptor
        assert "/FontFile2" in descriptor or "/FontFile3" in descriptor
        assert len(font.ToUnicode.read_bytes()) > 0


def test_nothing_is_encrypted_scripted_or_fetched(file: pikepdf.Pdf) -> None:
    """ISO 19005-3, 6.1.3 (encryption) and 6.5.1 (actions)."""
    everything = [
        each.stream_dict if isinstance(each, pikepdf.Stream) else each
        for each in file.objects
        if isinstance(each, pikepdf.Dictionary | pikepdf.Stream)
    ]
    keys = {str(key) for each in everything for key in each.as_dict()}

    assert not file.is_encrypted
    assert not keys & {
        "/JavaScript",
        "/JS",
        "/AA",
        "/OpenAction",
        "/Launch",
        "/URI",
        "/URL",
        "/XFA",
        "/FFilter",
        "/Ref",
    }
    assert "/JavaScript" not in file.Root.get("/Names", {})


def test_record_and_check_list_are_attached_byte_for_byte(file: pikepdf.Pdf) -> None:
    """ISO 19005-3, 6.8 and annex E: each attached file is named in AF, with its relationship and media type."""
    associated = {str(each.UF): each for each in file.Root.AF}

    assert {
        name: bytes(file.attachments[name].get_file().read_bytes()) for name in file.attachments
    } == attached(FULL)
    assert {name: str(each.AFRelationship) for name, each in associated.items()} == {
        "visit.json": "/Source",
        "checklist.csv": "/Data",
    }
    assert {name: str(each.EF.F.Subtype) for name, each in associated.items()} == {
        "visit.json": "/application/json",
        "checklist.csv": "/text/csv",
    }
    assert all(str(each.Desc) for each in associated.values())


def _elements(node: Any) -> Iterator[Any]:
    if isinstance(node, pikepdf.Array):
        for each in node:
            yield from _elements(each)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        yield node
        yield from _elements(node.get("/K"))


def _kinds(node: Any) -> Iterator[Any]:
    return (element.S for element in _elements(node))
