# Writes list.xlsx by openpyxl 3.0, which knows nothing of the reader here: python3 make.py
import datetime

from openpyxl import Workbook

book = Workbook()
front = book.active
front.title = "Front page"
front["A1"] = "Any Supply, spring"
front.merge_cells("A1:D1")

s = book.create_sheet("Prices")
s.append(["Art. no.", "Description", "Pack", "Length (m)", "Price (EUR)", "Supplier", "Price date"])
s.append(["A-1", 'Elbow 3/4" & <cap>', 10, None, 21.5, "Any Supply", datetime.date(2026, 3, 14)])
s.append([4711, "copper-l 3/4", 1, 6.096, 0.1 + 0.2, "Any Supply", datetime.datetime(2026, 3, 15, 12, 30)])
s.append(["A-3", "drain-cock 1/2", True, None, "6,20", "Any Supply", "14.03.2026"])
s.append(["A-4", "a formula", 1, None, "=2*3", "Any Supply", None])
s["F3"].value = None
s.merge_cells("F2:F3")
for cell in s["E"][1:]:
    cell.number_format = '#,##0.00 "EUR"'
s["A7"] = "after a blank row"
s["AB7"] = "far out"

days = Workbook()
days.epoch = datetime.datetime(1904, 1, 1)
days.active.append(["price", datetime.date(2026, 3, 14)])
days.save("from1904.xlsx")
book.save("list.xlsx")
