"""The labelled questions put to three searches over the demo library, side by side.

    cargo build --release
    python3 tests/outside/search_rivals.py target/release/wirelore

Needs PyYAML and a Python with SQLite's FTS5. The rivals get the same facts as rows of text: card, kind, mark, and
all that the card says of it. Substring: rows that hold the most of the question's words, in library order. FTS5: the
words joined by OR (its own query language would take `S+` and `T/R` for syntax), ranked by bm25.
"""

import json
import pathlib
import re
import sqlite3
import subprocess
import sys

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
LIBRARY = ROOT / "library"


def words_of(value):
    """All that a piece of YAML says, as text."""
    if isinstance(value, dict):
        return " ".join(words_of(part) for part in value.values())
    if isinstance(value, list):
        return " ".join(words_of(part) for part in value)
    return str(value)


def rows_of_card(card):
    """(kind, mark, text) of each fact of a card, in card order."""
    name = " ".join(words_of(card.get(key, "")) for key in ("maker", "model", "also", "does"))
    yield "card", None, f"{name} {words_of(card.get('markings', ''))} {words_of(card.get('power', ''))}"
    for kind, key in (("terminal", "terminals"), ("fuse", "fuses"), ("link", "links")):
        for fact in card.get(key, []):
            yield kind, str(fact["mark"]), f"{name} {kind} {words_of(fact)}"
    siren = card.get("siren")
    if isinstance(siren, dict):
        for key in ("hold_off", "negative"):
            if siren.get(key) not in (None, "none"):
                yield "siren", str(siren[key]), f"{name} siren {key} {siren[key]}"
        for trigger in siren.get("triggers", []):
            yield "siren", str(trigger["terminal"]), f"{name} siren trigger {words_of(trigger)}"
    for zone in card.get("zones", []):
        yield "zone", str(zone["terminals"][0]), f"{name} zone {words_of(zone)}"
    for marking in card.get("markings", []):
        yield "marking", None, f"{name} marking {marking}"
    for caution in card.get("cautions", []):
        yield "caution", None, f"{name} caution {caution}"


def rows():
    """(card, kind, mark, text) of the whole library, cards by id."""
    paths = [path for folder in ("panels", "boards", "supplies", "devices") for path in (LIBRARY / folder).glob("*.yaml")]
    for path in sorted(paths, key=lambda path: path.stem):
        card = yaml.load(path.read_text(), Loader=yaml.BaseLoader)
        for kind, mark, text in rows_of_card(card):
            yield path.stem, kind, mark, text
        for note in sorted((LIBRARY / "notes" / path.stem).glob("*.md")):
            _, head, text = note.read_text().split("---", 2)
            about = yaml.load(head, Loader=yaml.BaseLoader).get("about")
            yield path.stem, "note", about, f"{card.get('maker', '')} {card.get('model', '')} note {about or ''} {text}"


def questions():
    """(group, words, answers) of the labelled set."""
    for line in (ROOT / "tests/search/questions.tsv").read_text().splitlines():
        if line and not line.startswith("#"):
            group, words, _, answers = line.split("\t")
            yield group, words, [] if answers == "none" else [answer.split("/") for answer in answers.split(" | ")]


def place(answers, hits):
    """The place of the first right hit, from 1; for nonsense 1 when there is none; else nothing."""
    if not answers:
        return None if hits else 1
    for at, hit in enumerate(hits, 1):
        seen = [hit[0], hit[1], hit[2] if hit[2] is not None else "?"]
        if any(all(w in ("*", s) for w, s in zip(answer, seen)) for answer in answers):
            return at
    return None


def substring(facts):
    """Rows that hold the most of the words, as they are typed but for case."""
    lowered = [(card, kind, mark, text.lower()) for card, kind, mark, text in facts]

    def find(words):
        asked = words.lower().split()
        counted = [(sum(word in row[3] for word in asked), row) for row in lowered]
        best = sorted((pair for pair in counted if pair[0]), key=lambda pair: -pair[0])
        return [row[:3] for _, row in best[:10]]

    return find


def fts5(facts):
    """SQLite's full-text search, ranked."""
    base = sqlite3.connect(":memory:")
    base.execute("CREATE VIRTUAL TABLE facts USING fts5(card UNINDEXED, kind UNINDEXED, mark, text, tokenize='porter')")
    base.executemany("INSERT INTO facts VALUES (?, ?, ?, ?)", facts)

    def find(words):
        asked = re.findall(r"\w+", words)
        if not asked:
            return []
        query = " OR ".join(f'"{word}"' for word in asked)
        found = base.execute("SELECT card, kind, mark FROM facts WHERE facts MATCH ? ORDER BY rank LIMIT 10", [query])
        return found.fetchall()

    return find


def ours(program):
    """The program itself."""

    def find(words):
        ran = subprocess.run([program, "find", "--json", "--", words], capture_output=True, text=True, check=False)
        return [(hit["card"], hit["kind"], hit["mark"]) for hit in json.loads(ran.stdout)["hits"]]

    return find


def main():
    program = sys.argv[1] if len(sys.argv) > 1 else str(ROOT / "target/release/wirelore")
    facts = list(rows())
    searches = {"wirelore": ours(program), "substring": substring(facts), "FTS5": fts5(facts)}
    asked = list(questions())
    groups = sorted({group for group, _, _ in asked})
    places = {name: [(group, place(answers, find(words))) for group, words, answers in asked] for name, find in searches.items()}
    print(f"{'':10} {'asked':>5}  " + "  ".join(f"{name:>13}" for name in searches))
    print(f"{'group':10} {'':>5}  " + "  ".join(f"{'MRR':>6} {'first':>6}" for _ in searches))
    for group in [*groups, "all"]:
        chosen = {name: [p for g, p in found if group in (g, "all")] for name, found in places.items()}
        count = len(next(iter(chosen.values())))
        rates = [(sum(1 / p for p in ps if p) / count, sum(p == 1 for p in ps) / count) for ps in chosen.values()]
        print(f"{group:10} {count:>5}  " + "  ".join(f"{mrr:6.3f} {first:6.3f}" for mrr, first in rates))


if __name__ == "__main__":
    main()
