"""The tree-sitter grammar: every spec parses, every color of the query is used, and what is
broken or cut off is parsed too."""

import ctypes
import pathlib
import sys
import unittest

import tree_sitter

HOUSE = pathlib.Path(__file__).resolve().parents[2]
GRAMMAR = HOUSE / "editors" / "tree-sitter"
LIBRARY = sys.argv.pop(1)


def language():
    made = ctypes.CDLL(LIBRARY).tree_sitter_casewright
    made.restype = ctypes.c_void_p
    capsule = ctypes.pythonapi.PyCapsule_New
    capsule.restype = ctypes.py_object
    capsule.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p]
    return tree_sitter.Language(capsule(made(), b"tree_sitter.Language", None))


LANGUAGE = language()
QUERY = tree_sitter.Query(LANGUAGE, (GRAMMAR / "queries" / "highlights.scm").read_text())


def parsed(text):
    return tree_sitter.Parser(LANGUAGE).parse(text.encode()).root_node


def colors(text):
    """Each colored piece with its colors."""
    found = {}
    for color, nodes in tree_sitter.QueryCursor(QUERY).captures(parsed(text)).items():
        for node in nodes:
            if not color.startswith("_"):
                place = (node.start_byte, node.text.decode())
                found.setdefault(place, set()).add(color)
    return found


def specs(*folders):
    return [path for folder in folders for path in sorted((HOUSE / "specs" / folder).glob("*.case"))]


def whole(text):
    """The pieces of a short text by what they are."""
    return {piece: colors for (_, piece), colors in colors(text).items()}


class Grammar(unittest.TestCase):
    def test_every_sound_spec_parses_without_an_error(self):
        for path in specs(".", "examples"):
            self.assertFalse(parsed(path.read_text()).has_error, path)

    def test_what_is_broken_is_parsed_all_the_same(self):
        for path in specs("broken"):
            self.assertGreater(parsed(path.read_text()).descendant_count, 1, path)
        text = (HOUSE / "specs" / "first.case").read_text()
        for cut in range(0, len(text), 7):
            parsed(text[:cut])

    def test_what_stands_behind_a_slip_is_read_again(self):
        tree = parsed('case a {\n  wide ?? 3\n  deep 18\n}\ncase b { high 4 }\n')
        self.assertTrue(tree.has_error)
        words = whole('case a {\n  wide ?? 3\n  deep 18\n}\ncase b { high 4 }\n')
        for word in ["deep", "high"]:
            self.assertEqual(words.get(word), {"keyword"}, word)

    def test_no_place_has_two_colors(self):
        used = set()
        for path in specs(".", "examples"):
            for place, found in colors(path.read_text()).items():
                self.assertEqual(len(found), 1, (path, place, found))
                used |= found
        expected = {
            "comment", "constant", "keyword", "keyword.operator", "number", "operator",
            "punctuation.bracket", "punctuation.delimiter", "string", "type", "variable",
        }
        self.assertEqual(used, expected)

    def test_every_statement_of_a_spec_begins_with_a_color(self):
        words = tree_sitter.Query(LANGUAGE, "(statement word: (name) @word)")
        for path in specs("."):
            text = path.read_text()
            known = colors(text)
            nodes = tree_sitter.QueryCursor(words).captures(parsed(text)).get("word", [])
            self.assertTrue(nodes, path)
            for node in nodes:
                # A part in a record stands for itself.
                block = node.parent.parent
                if block.type == "block" and block.parent.children[0].text == b"cut":
                    continue
                self.assertIn((node.start_byte, node.text.decode()), known, path)

    def test_an_inch_mark_begins_no_text(self):
        found = whole('case a { high 5\' 3-1/2"; wide 7"; note "7\\" of \\"b\\""; deep 3 1/2 mm }')
        for piece, color in [
            ("5' 3-1/2\"", "number"), ('7"', "number"), ("3 1/2", "number"), ("mm", "type"),
            ('"7\\" of \\"b\\""', "string"), ("wide", "keyword"), ("deep", "keyword"),
        ]:
            self.assertEqual(found.get(piece), {color}, piece)

    def test_a_word_is_a_choice_only_behind_what_takes_it(self):
        found = colors("rail bottom { wide 3 }; bottom { joint dado }; stock short")
        colored = {(start, piece): color for (start, piece), color in found.items()}
        self.assertEqual(colored[(5, "bottom")], {"constant"})
        self.assertEqual(colored[(24, "bottom")], {"keyword"})
        self.assertNotIn("constant", set().union(*(c for (_, p), c in found.items() if p == "short")))


if __name__ == "__main__":
    unittest.main()
