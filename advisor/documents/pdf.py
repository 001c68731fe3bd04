"""PDF from HTML: tagged (PDF/UA-1), archival (PDF/A-3a), its data attached to it.

Nothing is fetched from disk or network but the fonts of the package.
"""

import logging
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from importlib.resources import files
from types import ModuleType
from typing import Any

PANGO_HELP = (
    "The PDF needs the Pango library of the system, which is not here. Install it with\n"
    "  Debian, Ubuntu:  apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "  Fedora:          dnf install pango\n"
    "  macOS:           brew install pango\n"
    "  Windows:         see the installation page of WeasyPrint's documentation\n"
    "and run again."
)

# What says in the metadata that the file is PDF/UA-1 (ISO 14289-1, clause 5), and what
# PDF/A (ISO 19005-3, 6.6.2.3) wants to be told of a schema that it does not know itself.
_ACCESSIBLE = b"""
<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
  <pdfuaid:part>1</pdfuaid:part>
</rdf:Description>
<rdf:Description rdf:about=""
    xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
    xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
    xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
  <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
    <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
    <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
    <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
    <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
      <pdfaProperty:name>part</pdfaProperty:name>
      <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
      <pdfaProperty:category>internal</pdfaProperty:category>
      <pdfaProperty:description>Part of ISO 14289</pdfaProperty:description>
    </rdf:li></rdf:Seq></pdfaSchema:property>
  </rdf:li></rdf:Bag></pdfaExtension:schemas>
</rdf:Description>
"""


class PdfUnavailableError(Exception):
    """The system lacks what the PDF needs; the message says what to install."""


@dataclass(frozen=True)
class Attached:
    """A file that a PDF carries.

    `source` tells the file that the document was made from, as the job file, from data
    that belong to it, as the plan.
    """

    name: str
    content: bytes
    description: str
    source: bool = False


def pdf_of(
    html: str, made_on: date | None = None, attached: Iterable[Attached] = ()
) -> bytes:
    """Return the PDF of an HTML page of this package.

    Parameters
    ----------
    html : str
        Self-contained HTML.
    made_on : date, optional
        The day that stands in the metadata; the same page and day give the same bytes.
    attached : iterable of Attached
        What the PDF carries.

    Raises
    ------
    PdfUnavailableError
        If Pango is missing.
    """
    weasyprint = _weasyprint()
    from weasyprint.text.fonts import FontConfiguration

    fetcher, fonts = _fetcher(), FontConfiguration()
    faces = files("advisor.templates").joinpath("fonts.css").read_text(encoding="utf-8")
    sheet = weasyprint.CSS(string=faces, font_config=fonts, url_fetcher=fetcher)
    page = weasyprint.HTML(string=html, url_fetcher=fetcher, base_url="package:///")
    document = page.render(stylesheets=[sheet], font_config=fonts)
    metadata = document.metadata
    metadata.created = metadata.modified = made_on.isoformat() if made_on else None
    day = datetime.combine(made_on or date.min, time())
    metadata.attachments = [
        weasyprint.Attachment(
            string=one.content,
            name=one.name,
            description=one.description,
            created=day,
            modified=day,
            relationship="Source" if one.source else "Data",
        )
        for one in attached
    ]
    _say_accessible(metadata)
    pdf: bytes = document.write_pdf(pdf_variant="pdf/a-3a", finisher=_ended)
    return pdf


def _weasyprint() -> ModuleType:
    try:
        import weasyprint
    except OSError as error:
        raise PdfUnavailableError(PANGO_HELP) from error
    logging.getLogger("fontTools").setLevel(logging.ERROR)
    module: ModuleType = weasyprint
    return module


def _fetcher() -> Any:
    """Return what serves the fonts of the package and nothing else."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class PackageFetcher(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: Any = None) -> Any:
            name = url.removeprefix("package:///fonts/")
            font = files("advisor.templates").joinpath("fonts", name)
            if name == url or "/" in name or not font.is_file():
                raise ValueError(f"not a file of the package: {url}")
            return URLFetcherResponse(url, body=font.read_bytes())

    return PackageFetcher()


def _ended(_document: Any, pdf: Any) -> None:
    """Have no packed drawing end in a line break: a reader may take it for the file's."""
    for one in pdf.objects:
        drawing = hasattr(one, "stream") and not {"Type", "Length1"} & {*one.extra}
        if drawing and one.compress:
            packed = one.data.removesuffix(b"\nendstream")
            if packed[-1:] in b"\r\n":
                one.stream.append(b" ")


def _say_accessible(metadata: Any) -> None:
    """Have the metadata name both standards, and stand in the file unpacked."""
    described, include = metadata.generate_rdf_metadata, metadata.include_in_pdf

    def both(variant: str, version: int, conformance: str) -> bytes:
        rdf: bytes = described(variant, version, conformance)
        return rdf.replace(b"</rdf:RDF>", _ACCESSIBLE + b"</rdf:RDF>")

    def unpacked(
        pdf: Any, variant: str, version: int, conformance: str, compress: bool
    ) -> None:
        include(pdf, variant, version, conformance, False)

    metadata.generate_rdf_metadata, metadata.include_in_pdf = both, unpacked
