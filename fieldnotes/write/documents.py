"""All documents of a visit as bytes, by file name."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

from fieldnotes.settings import Document
from fieldnotes.write.captions import webvtt
from fieldnotes.write.checklist import checklist_csv
from fieldnotes.write.contents import (
    CAPTIONS,
    CHECKLIST,
    FINDINGS,
    PAGES,
    PRINTED,
    RECORD,
    TRANSCRIPT,
    Contents,
)
from fieldnotes.write.findings import findings_vtt
from fieldnotes.write.pages import render_pages
from fieldnotes.write.pdf import render_pdf
from fieldnotes.write.schema import visit_json


def documents(office: Contents, claim: Contents | None = None) -> dict[str, bytes]:
    """What the settings ask for, and the record, the check list, the captions and the findings.

    Args:
        office: the visit as it was heard.
        claim: the same with private words struck out, for the claim sheet; None: there are none.

    Raises TemplateError where a template does not render.
    """
    made = {
        RECORD: visit_json(office.visit),
        CHECKLIST: checklist_csv(office.visit),
        CAPTIONS: webvtt(office.transcript),
        TRANSCRIPT: office.transcript.model_dump_json() + "\n",
        FINDINGS: findings_vtt(office.visit),
    }
    files = {name: text.encode() for name, text in made.items()}
    wanted = {
        document: claim if document == "claim" and claim is not None else office
        for document in office.settings.pages.documents
    }
    with ThreadPoolExecutor() as printing:  # Typst does not hold up Python
        printed = {
            PRINTED[document]: printing.submit(
                render_pdf, PRINTED[document], contents, _attached(document, contents)
            )
            for document, contents in wanted.items()
        }
        for document, contents in wanted.items():
            files |= {name: text.encode() for name, text in render_pages(contents, PAGES[document]).items()}
        return files | {name: page.result() for name, page in printed.items()}


def _attached(document: Document, contents: Contents) -> dict[str, bytes]:
    """What is attached to a printed document; the customer's has nothing of the office in it."""
    if document == "customer":
        return {}
    return {RECORD: visit_json(contents.visit).encode(), CHECKLIST: checklist_csv(contents.visit).encode()}
