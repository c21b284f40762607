"""Reads a workbook with openpyxl and reckons each formula anew from the cells before it;
prints what it found as JSON. Formulas understood: SUM over a column, products of two cells,
divided by a figure, rounded to two decimals."""

import json
import re
import sys
import zipfile
from decimal import ROUND_HALF_UP, Decimal
from xml.dom import minidom

import openpyxl


def product(text, cell):
    a, b, per = re.fullmatch(r"([A-Z]+\d+)\*([A-Z]+\d+)(?:/([0-9.e+-]+))?", text).groups()
    value = cell(a) * cell(b)
    return value / Decimal(per) if per else value


def reckon(text, cell):
    if m := re.fullmatch(r"=SUM\(([A-Z]+)(\d+):([A-Z]+)(\d+)\)", text):
        assert m[1] == m[3]
        return sum((cell(m[1] + str(n)) for n in range(int(m[2]), int(m[4]) + 1)), Decimal(0))
    if m := re.fullmatch(r"=ROUND\((.*),2\)", text):
        # A spreadsheet rounds the binary product; half a hundredth may fall either way.
        return product(m[1], cell).quantize(Decimal("0.01"), ROUND_HALF_UP)
    return product(text[1:], cell)


def sheet(formulas, values):
    def cell(name):
        c = formulas[name]
        if c.data_type == "f":
            return reckon(c.value, cell)
        return Decimal(repr(c.value)) if isinstance(c.value, (int, float)) else Decimal(0)

    rows = []
    for row in formulas.iter_rows():
        out = []
        for c in row:
            kept = values[c.coordinate].value
            found = {"value": kept, "type": c.data_type, "format": c.number_format, "bold": bool(c.font.b)}
            if c.data_type == "f":
                found["formula"] = c.value
                found["reckoned"] = float(cell(c.coordinate))
            out.append(found)
        rows.append(out)
    return {
        "name": formulas.title,
        "frozen": formulas.freeze_panes,
        "repeated": formulas.print_title_rows,
        "widths": [formulas.column_dimensions[c[0].column_letter].width for c in formulas.iter_cols(max_row=1)],
        "rows": rows,
    }


file = sys.argv[1]
with zipfile.ZipFile(file) as z:
    assert z.testzip() is None
    for name in z.namelist():
        minidom.parseString(z.read(name))
formulas, values = openpyxl.load_workbook(file), openpyxl.load_workbook(file, data_only=True)
sheets = [sheet(f, v) for f, v in zip(formulas.worksheets, values.worksheets)]
json.dump({"title": formulas.properties.title, "sheets": sheets}, sys.stdout)
