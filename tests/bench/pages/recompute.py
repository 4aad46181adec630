#!/usr/bin/env python3
"""Has LibreOffice compute workbooks anew and compares every formula with the result that is written beside it.

By hand only, not in CI: tests/bench/pages/recompute.py order.xlsx quote.xlsx
The written results are taken out first, so that nothing but the formulas can bring them back.
"""
import os, re, subprocess, sys, tempfile, zipfile

CELL = re.compile(r'<c r="(\w+)"([^>]*)><f>(.*?)</f><v>(.*?)</v></c>')
KEPT = re.compile(r'<c r="(\w+)"[^>]*>(?:<f[^>]*>.*?</f>|<f[^>]*/>)?<v>(.*?)</v></c>')


def sheets(path):
    with zipfile.ZipFile(path) as z:
        return {n: z.read(n).decode() for n in z.namelist() if n.startswith("xl/worksheets/sheet")}


def without_results(path, copy):
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(copy, "w") as out:
        for name in source.namelist():
            data = source.read(name)
            if name.startswith("xl/worksheets/sheet"):
                data = CELL.sub(r'<c r="\1"\2><f>\3</f></c>', data.decode()).encode()
            out.writestr(name, data)


wrong = 0
for path in sys.argv[1:]:
    with tempfile.TemporaryDirectory() as folder:
        copy = os.path.join(folder, "in.xlsx")
        without_results(path, copy)
        out = os.path.join(folder, "out")
        subprocess.run(["soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--convert-to",
                        "xlsx", "--outdir", out, copy], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        computed = {name: dict(KEPT.findall(text)) for name, text in sheets(os.path.join(out, "in.xlsx")).items()}
        formulas = differ = 0
        for name, text in sheets(path).items():
            for cell, _, formula, value in CELL.findall(text):
                formulas += 1
                got = computed[name].get(cell)
                if got is None or abs(float(got) - float(value)) > 1e-9 * max(1, abs(float(value))):
                    differ += 1
                    print(f"{path} {name} {cell}: ={formula} is {value}, computed {got}")
        print(f"{os.path.basename(path)}: {formulas} formulas, {differ} differ")
        wrong += differ + (formulas == 0)
sys.exit(1 if wrong else 0)
