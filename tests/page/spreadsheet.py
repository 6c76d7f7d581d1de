"""A small .xlsx: of rows given as JSON on standard input, on standard output."""
import io, json, sys, zipfile


def spreadsheet(rows):
    """The least that is an .xlsx (ECMA-376): a workbook of one sheet with its texts in the cells."""
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    cells = "".join("<row>" + "".join(f'<c t="inlineStr"><is><t>{cell}</t></is></c>' if isinstance(cell, str) else f"<c><v>{cell}</v></c>" for cell in row)
                    + "</row>" for row in rows)
    files = {"[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
             "_rels/.rels": f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="{rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
             "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{rel}"><sheets><sheet name="Cuts" sheetId="1" r:id="r1"/></sheets></workbook>',
             "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="{rel}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
             "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{main}"><sheetData>{cells}</sheetData></worksheet>'}
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        for name, text in files.items():
            packed.writestr(name, text)
    return out.getvalue()


if __name__ == "__main__":
    sys.stdout.buffer.write(spreadsheet(json.load(sys.stdin)))
