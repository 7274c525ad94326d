# SPDX-License-Identifier: MIT
"""Looks at pages of HTML in a headless Chromium.

    look.py CHROMIUM FOLDER PAGE...

Each page is shown 1280 and 400 px wide, and as its rules for paper have it on A4 and
on Letter, less the margins of @page; measure.js says where texts lie on one another,
are cut, or leave their picture or the paper. So that it can be seen to find these,
a page made worse is measured as well. Pictures of the screen at both widths and PDFs
of both papers are left in FOLDER to be looked at.
"""

import html
import json
import os
import re
import subprocess
import sys

WIDTHS = {"1280 px": 1280, "400 px": 400}
# ISO 216 and ANSI/ASME Y14.1 in mm, less 12 mm on each side; 96 px of CSS are 25.4 mm.
PAPERS = {"A4": (210 - 24) * 96 / 25.4, "Letter": (215.9 - 24) * 96 / 25.4}
WORSE = {
    "lies on": "h1,p{height:0;margin:0}",
    "cut": "p{white-space:nowrap;overflow:hidden;width:9em}",
    "out of its picture": "svg text{transform:translate(60em)}",
    "wide": "table{width:3000px}.scroll{overflow:visible !important}",
}


def frame(name, page, width, paper=False):
    if paper:
        page = page.replace("@media print", "@media all")
    return (f'<iframe title="{name}" data-paper="{"yes" if paper else "no"}" srcdoc="{html.escape(page)}" '
            f'style="border:0;display:block;width:{width:.0f}px;height:2000px"></iframe>\n')


def run(chromium, folder, *options):
    command = [chromium, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
               "--hide-scrollbars", f"--user-data-dir={folder}/profile", "--no-first-run",
               "--host-resolver-rules=MAP * ~NOTFOUND", *options]
    return subprocess.run(command, capture_output=True, text=True, timeout=120, env={**os.environ, "HOME": folder})


def write(path, text):
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return "file://" + path


def measure(chromium, folder, pages):
    with open(os.path.join(os.path.dirname(__file__), "measure.js"), encoding="utf-8") as file:
        script = file.read()
    frames = [frame(f"{name}, {what}", page, width)
              for name, page in pages.items() for what, width in WIDTHS.items()]
    frames += [frame(f"{name}, {what}", page, width, True)
               for name, page in pages.items() for what, width in PAPERS.items()]
    worst = next(iter(pages.values()))
    frames += [frame(f"worse: {what}", worst.replace("</style>", rule + "</style>"), 1280)
               for what, rule in WORSE.items()]
    text = f'<!DOCTYPE html><meta charset="utf-8"><title>x</title><body><script>{script}</script>\n' + "".join(frames)
    done = run(chromium, folder, "--dump-dom", write(f"{folder}/frames.html", text))
    found = re.search(r'<pre id="measured">(.*?)</pre>', done.stdout, re.S)
    if not found:
        sys.exit(f"Chromium did not measure: {done.stderr[-2000:]}")
    return json.loads(html.unescape(found.group(1)))


def judge(measured):
    failed = False
    for page in measured:
        name, wrong = page["name"], page["wrong"]
        if name.startswith("worse: "):
            if not any(name.removeprefix("worse: ") in what for what in wrong):
                failed = True
                print(f"{name}: not seen")
            continue
        if page["texts"] < 20:
            wrong.append(f"shows {page['texts']} texts")
        for what in wrong[:8]:
            failed = True
            print(f"{name}: {what}")
    return failed


def shoot(chromium, folder, pages):
    """A picture with all pages at each width, and a PDF of each paper; True where one is not there."""
    failed = False
    for what, width in WIDTHS.items():
        text = '<!DOCTYPE html><meta charset="utf-8"><title>x</title><body style="margin:0;display:flex">\n'
        text += "".join(frame(name, page, width) for name, page in pages.items())
        picture = f"{folder}/{width}.png"
        done = run(chromium, folder, f"--window-size={width * len(pages)},2000", f"--screenshot={picture}",
                   write(f"{folder}/{width}.html", text))
        if not os.path.exists(picture) or os.path.getsize(picture) < 10000:
            failed = True
            print(f"no picture {what}: {done.stderr[-1000:]}")
    for what in PAPERS:
        page = next(iter(pages.values())).replace("@page{", f"@page{{size:{what};")
        paper = f"{folder}/{what}.pdf"
        done = run(chromium, folder, "--no-pdf-header-footer", f"--print-to-pdf={paper}",
                   write(f"{folder}/{what}.html", page))
        sides = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", open(paper, "rb").read()) \
            if os.path.exists(paper) else []
        wanted = {"A4": (210, 297), "Letter": (215.9, 279.4)}[what]
        if not sides or any(abs(float(side) / 72 * 25.4 - mm) > 1 for size in sides for side, mm in zip(size, wanted)):
            failed = True
            print(f"no PDF on {what}: {sides} {done.stderr[-1000:]}")
    return failed


chromium, folder = sys.argv[1], os.path.abspath(sys.argv[2])
pages = {}
for path in sys.argv[3:]:
    with open(path, encoding="utf-8") as file:
        pages[os.path.basename(path).removesuffix(".html")] = file.read()
failed = judge(measure(chromium, folder, pages))
failed = shoot(chromium, folder, pages) or failed
sys.exit(failed)
