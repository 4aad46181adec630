#!/usr/bin/env python3
"""Opens the customer's copy of a quote in a real browser and looks for what it must hide. By hand only, not in CI:

  tests/bench/pages/customer_copy.py build/release/teetally garden.yaml job.yaml catalogs

Hidden are all amounts and rates that only the internal copy has, suppliers' names and ids, skus, and the words for profit.
Both what the browser shows and the source it was given are searched.
"""
import json
import re
import subprocess
import sys
import tempfile

WORDS = [r"\bmargin", r"\bmarkup", r"\bprofit", r"(?<!water )supplier", r"\boverhead"]


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def leaves(value, key=""):
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from leaves(inner, name)
    elif isinstance(value, list):
        for inner in value:
            yield from leaves(inner, key)
    else:
        yield key, str(value)


def main():
    program, design, job, catalogs = sys.argv[1:5]
    quote = [program, "quote", design, "--job", job, "--catalogs", catalogs]
    internal = list(leaves(json.loads(run(*quote, "--copy", "internal", "--format", "json"))))
    customer = {text for _, text in leaves(json.loads(run(*quote, "--format", "json")))}
    amounts = {text for _, text in internal if re.fullmatch(r"-?\d+\.\d\d", text)} - customer
    names = {text for key, text in internal if text and key in ("supplier", "sku", "suppliers", "bundle")} - customer
    with tempfile.NamedTemporaryFile("w", suffix=".html") as page:
        page.write(run(*quote, "--format", "html"))
        page.flush()
        shown = run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", "file://" + page.name)
        source = open(page.name, encoding="utf-8").read()
    found = []
    for text in (shown, source):
        bare = re.sub(r"(\d),(\d\d\d)", r"\1\2", re.sub(r"<style>.*?</style>", "", text, flags=re.S))
        found += [amount for amount in amounts if re.search(r"(?<![\d.])" + re.escape(amount) + r"(?!\d)", bare)]
        found += [name for name in names if name in bare]
        found += [word for word in WORDS if re.search(word, bare, re.I)]
    print(f"{len(amounts)} amounts, {len(names)} names and {len(WORDS)} words looked for, {len(found)} found")
    for text in sorted(set(found)):
        print("  " + text)
    return 1 if found or not amounts or not names else 0


if __name__ == "__main__":
    sys.exit(main())
