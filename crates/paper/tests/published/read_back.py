"""Reads a PDF back with two readers that share no code with its writer, for the tests beside this file.

facts FILE            JSON: title, language, viewer wishes, per page its size, filled rectangles and letters, in mm from
                      the upper left corner (pdfplumber for what is drawn, pypdf for what the document says of itself)
image FILE            JSON: an SVG image's size, spoken name and paths, read by Python's own XML reader
ink FILE PAGE DPI     a binary PGM of one page, rendered by PDFium
"""
import json
import sys
import xml.etree.ElementTree

import pdfplumber
import pypdf
import pypdfium2

MM = 25.4 / 72


def facts(path):
    reader = pypdf.PdfReader(path, strict=True)
    root = reader.trailer["/Root"]
    told = {
        "title": reader.metadata.title,
        "language": root["/Lang"],
        "print_scaling": root["/ViewerPreferences"]["/PrintScaling"],
        "copied_out": [page.extract_text() for page in reader.pages],
    }
    with pdfplumber.open(path) as pdf:
        told["pages"] = [page_facts(page) for page in pdf.pages]
    return told


def page_facts(page):
    return {
        "width": page.width * MM,
        "height": page.height * MM,
        "rects": [[r["x0"] * MM, r["top"] * MM, r["x1"] * MM, r["bottom"] * MM] for r in page.rects],
        "letters": [letter_facts(page, letter) for letter in page.chars],
    }


def letter_facts(page, letter):
    matrix = letter["matrix"]
    return {
        "text": letter["text"],
        "x0": letter["x0"] * MM,
        "x1": letter["x1"] * MM,
        "baseline": (page.height - matrix[5]) * MM,
        "font": letter["fontname"],
    }


def image(path):
    root = xml.etree.ElementTree.parse(path).getroot()
    drawn = [part for part in root if part.tag == "path"]
    return {
        "size": [root.get("width"), root.get("height"), root.get("viewBox")],
        "role": root.get("role"),
        "spoken": root.get("aria-label"),
        "paths": [path.get("d") for path in drawn],
    }


def ink(path, page, dpi):
    image = pypdfium2.PdfDocument(path)[page].render(scale=dpi / 72, grayscale=True)
    pixels = image.to_numpy().reshape(image.height, -1)[:, : image.width]
    sys.stdout.buffer.write(b"P5 %d %d 255\n" % (image.width, image.height) + pixels.tobytes())


if __name__ == "__main__":
    if sys.argv[1] in ("facts", "image"):
        print(json.dumps({"facts": facts, "image": image}[sys.argv[1]](sys.argv[2])))
    else:
        ink(sys.argv[2], int(sys.argv[3]), float(sys.argv[4]))
