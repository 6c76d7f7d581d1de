#!/usr/bin/env python3
"""A part list in a spreadsheet is the same list: the desk's, written as .xlsx and as .ods, gives the areas of its CSV file.

Prints "N passed, N failed".
"""
import csv
import os
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = os.environ.get("COATWRIGHT", str(ROOT / "build/coatwright"))
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ODF = "urn:oasis:names:tc:opendocument:xmlns:"


def is_number(text):
    try:
        float(text)
        return True
    except ValueError:
        return False


def xlsx(path, rows):
    def cell(text):
        if is_number(text):
            return f"<c><v>{text}</v></c>"
        return f'<c t="inlineStr"><is><t>{escape(text)}</t></is></c>' if text else "<c/>"
    body = "".join("<row>" + "".join(map(cell, row)) + "</row>" for row in rows)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>'
                         '<sheet name="Empty" r:id="r1"/><sheet name="Desk" r:id="r2"/></sheets></workbook>')
        archive.writestr("xl/_rels/workbook.xml.rels", '<Relationships><Relationship Id="r1" Target="worksheets/1.xml"/>'
                         '<Relationship Id="r2" Target="worksheets/2.xml"/></Relationships>')
        archive.writestr("xl/worksheets/1.xml", f'<worksheet xmlns="{MAIN}"><sheetData/></worksheet>')
        archive.writestr("xl/worksheets/2.xml", f'<worksheet xmlns="{MAIN}"><sheetData>{body}</sheetData></worksheet>')


def ods(path, rows):
    def cell(text):
        number = f" office:value-type='float' office:value={quoteattr(text)}" if is_number(text) else ""
        return f"<table:table-cell{number}><text:p>{escape(text.replace('.', ',') if number else text)}</text:p></table:table-cell>"
    body = "".join("<table:table-row>" + "".join(map(cell, row)) + "</table:table-row>" for row in rows)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("content.xml", f'<office:document-content xmlns:office="{ODF}office:1.0" xmlns:table="{ODF}table:1.0" '
                         f'xmlns:text="{ODF}text:1.0"><office:body><office:spreadsheet><table:table table:name="Empty"/>'
                         f'<table:table table:name="Desk">{body}</table:table></office:spreadsheet></office:body></office:document-content>')


def run(folder, *arguments):
    answer = subprocess.run([PROGRAM, *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)
    return answer.returncode, answer.stdout


def main():
    passed, failed = 0, 0
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "examples"
        shutil.copytree(ROOT / "examples", folder)
        job = (folder / "desk.json").read_text(encoding="utf-8")
        rows = list(csv.reader(open(folder / "desk-parts.csv", encoding="utf-8", newline="")))
        want = run(folder, "area", "desk.json", "--json")
        for name, write in (("desk.xlsx", xlsx), ("desk.ods", ods)):
            write(folder / name, rows)
            (folder / "sheet.json").write_text(job.replace('"desk-parts.csv"', f'"{name}#Desk"'), encoding="utf-8")
            (folder / "none.json").write_text(job.replace('"desk-parts.csv"', f'"{name}#Drawers"'), encoding="utf-8")
            (folder / "cut.json").write_text(job.replace('"desk-parts.csv"', f'"cut-{name}"'), encoding="utf-8")
            (folder / f"cut-{name}").write_bytes((folder / name).read_bytes()[:-40])
            none, cut = run(folder, "area", "none.json"), run(folder, "area", "cut.json")
            for good, said in ((run(folder, "area", "sheet.json", "--json") == want, run(folder, "area", "sheet.json")),
                               (none[0] == 3 and "expected a sheet called Drawers" in none[1], none),
                               (cut[0] == 3 and "an archive that is whole" in cut[1], cut)):
                passed, failed = passed + good, failed + (not good)
                if not good:
                    print(name, *said)
    print(f"{passed} passed, {failed} failed")
    return failed > 0


sys.exit(main())
