"""The cutting plans of `cargo bench --bench cutting` beside those of two general-purpose
solver libraries, for the same instances and in one table.

Needs Python 3.10 or later with the packages `ortools` and `highspy`, in an environment that is
thrown away; nothing else in this repository needs them:

    place=$(mktemp -d) && python3 -m venv "$place"
    "$place/bin/pip" install ortools highspy
    "$place/bin/python" benches/compare.py --seconds 1

What each library is asked is a model as textbooks have it:

- CP-SAT lays rectangles out so that none lies over another, and does not mind how they are
  sawn: it may take fewer sheets than any saw does. `sawn` says of its plan whether cuts from
  edge to edge part it. Boards: so many of each length on each board.
- HiGHS cuts sheets into strips, and strips into pieces that may be ripped once more (Lodi,
  Martello and Monaci, Two-dimensional packing problems: a survey, European Journal of
  Operational Research 141, 2002, the model of two stages): each of its plans can be sawn.
  Boards: ways to fill a board, found one after another (Gilmore and Gomory, Operations
  Research 9, 1961).

A dash stands where a library found no plan in its time.
"""

import argparse
import csv
import io
import os
import subprocess
import sys
import time
from pathlib import Path

import highspy
import numpy as np
from ortools.sat.python import cp_model

ROOT = Path(__file__).resolve().parent.parent


class Instance:
    """The sheets (long, wide, cost) or boards (long, 1, 1), and the pieces of an instance."""

    def __init__(self, folder, name, is_boards, turns):
        self.is_boards, self.turns = is_boards, turns
        own = ["boards", "1d"] if is_boards else ["sheets", "2d"]
        paths = [folder / sub / f"{name}.csv" for sub in own]
        path = next(path for path in paths if path.exists())
        lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
        self.kinds, self.sizes = [], []
        for word, *cells in (line.split(",") for line in lines[1:]):
            if word == "sheet":
                self.kinds.append((int(cells[0]), int(cells[1]), int(cells[3])))
            elif word == "stock":
                self.kinds.append((int(cells[0]), 1, 1))
            elif is_boards:
                self.sizes += [(int(cells[0]), 1)] * int(cells[1])
            else:
                self.sizes += [(int(cells[0]), int(cells[1]))] * int(cells[2])

    def ways(self, size):
        """How a piece may lie."""
        return [size, size[::-1]] if self.turns and size[0] != size[1] else [size]

    def lengths(self):
        """Each length of a board's pieces with how many there are, the longest first."""
        counts = {}
        for long, _ in self.sizes:
            counts[long] = counts.get(long, 0) + 1
        return sorted(counts.items(), reverse=True)


def first_fit(instance):
    """Boards by first fit, the longest first: so many are enough."""
    room = []
    for long in sorted((size[0] for size in instance.sizes), reverse=True):
        at = next((at for at, own in enumerate(room) if own >= long), None)
        if at is None:
            room.append(instance.kinds[0][0] - long)
        else:
            room[at] -= long
    return len(room)


def saws(pieces):
    """True where cuts from edge to edge part rectangles (from x, from y, to x, to y)."""
    if len(pieces) < 2:
        return True
    for side in (0, 1):
        for line in {piece[side + 2] for piece in pieces}:
            before = [piece for piece in pieces if piece[side + 2] <= line]
            behind = [piece for piece in pieces if piece[side] >= line]
            if before and behind and len(before) + len(behind) == len(pieces):
                return saws(before) and saws(behind)
    return False


def solver(seconds):
    own = cp_model.CpSolver()
    own.parameters.max_time_in_seconds = seconds
    own.parameters.num_workers = os.cpu_count()
    own.parameters.random_seed = 1
    return own


def boards_by_cp(instance, seconds):
    model, most = cp_model.CpModel(), first_fit(instance)
    lengths, long = instance.lengths(), instance.kinds[0][0]
    taken = [model.NewBoolVar("") for _ in range(most)]
    on = [[model.NewIntVar(0, count, "") for _ in range(most)] for _, count in lengths]
    for (_, count), own in zip(lengths, on):
        model.Add(sum(own) == count)
    for board in range(most):
        load = sum(own[board] * length for (length, _), own in zip(lengths, on))
        model.Add(load <= long * taken[board])
        if board:
            model.AddImplication(taken[board], taken[board - 1])
    model.Minimize(sum(taken))
    own = solver(seconds)
    found = own.Solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return (round(own.ObjectiveValue()), None) if found else (None, None)


def sheets_by_cp(instance, seconds):
    """No more sheets than one for each piece; those of one kind are taken in order."""
    model, kinds = cp_model.CpModel(), instance.kinds
    most = min(len(instance.sizes), most_sheets(instance))
    wide = [max(kind[side] for kind in kinds) for side in (0, 1)]
    of = [[model.NewBoolVar("") for _ in kinds] for _ in range(most)]
    for at, own in enumerate(of):
        model.Add(sum(own) <= 1)
        if at and len(kinds) == 1:
            model.Add(sum(own) <= sum(of[at - 1]))
    boxes, placed, areas = [], [], []
    for size in instance.sizes:
        ways = instance.ways(size)
        way = [model.NewBoolVar("") for _ in ways]
        model.AddExactlyOne(way)
        on = [model.NewBoolVar("") for _ in range(most)]
        model.AddExactlyOne(on)
        own, intervals = [], []
        for side in (0, 1):
            span = model.NewIntVar(0, wide[side], "")
            model.Add(span == sum(one[side] * is_so for one, is_so in zip(ways, way)))
            at = model.NewIntVar(0, wide[side], "")
            for sheet, is_on in enumerate(on):
                limit = sum(kind[side] * is_of for kind, is_of in zip(kinds, of[sheet]))
                model.Add(at + span <= limit).OnlyEnforceIf(is_on)
            # The sheets lie beside each other.
            shift = sum(sheet * wide[0] * is_on for sheet, is_on in enumerate(on))
            last = wide[0] * most if side == 0 else wide[1]
            start, end = model.NewIntVar(0, last, ""), model.NewIntVar(0, last, "")
            model.Add(start == (at + shift if side == 0 else at))
            model.Add(end == start + span)
            intervals.append(model.NewIntervalVar(start, span, end, ""))
            own += [at, span]
        boxes.append(intervals)
        placed.append((on, own))
        areas.append(size[0] * size[1])
    model.AddNoOverlap2D([one for one, _ in boxes], [other for _, other in boxes])
    for sheet, own in enumerate(of):
        held = sum(kind[0] * kind[1] * is_of for kind, is_of in zip(kinds, own))
        model.Add(sum(area * on[sheet] for area, (on, _) in zip(areas, placed)) <= held)
    model.Minimize(sum(kind[2] * is_of for own in of for kind, is_of in zip(kinds, own)))
    own = solver(seconds)
    if own.Solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, None
    by_sheet = [[] for _ in range(most)]
    for on, (x, wide_x, y, wide_y) in placed:
        sheet = next(at for at, is_on in enumerate(on) if own.Value(is_on))
        left, low = own.Value(x), own.Value(y)
        by_sheet[sheet].append((left, low, left + own.Value(wide_x), low + own.Value(wide_y)))
    return round(own.ObjectiveValue()), all(saws(pieces) for pieces in by_sheet)


def most_sheets(instance):
    """So many sheets are enough: strips by first fit on the largest, the highest piece first."""
    long, wide, _ = max(instance.kinds, key=lambda kind: kind[0] * kind[1])
    sheets = []
    fits = lambda size: size[0] <= long and size[1] <= wide
    ways = [next(way for way in instance.ways(size) if fits(way)) for size in instance.sizes]
    for own_long, own_wide in sorted(ways, key=lambda own: -own[1]):
        for sheet in sheets:
            strip = next((s for s in sheet if s[0] >= own_wide and s[1] >= own_long), None)
            if strip is None and sum(s[0] for s in sheet) + own_wide <= wide:
                strip = [own_wide, long]
                sheet.append(strip)
            if strip is not None:
                strip[1] -= own_long
                break
        else:
            sheets.append([[own_wide, long - own_long]])
    return len(sheets)


class Rows:
    """A model of HiGHS, row by row."""

    def __init__(self):
        self.model = highspy.Highs()
        self.model.setOptionValue("output_flag", False)
        self.model.setOptionValue("log_to_console", False)

    def columns(self, costs, most, whole=True):
        first, count = self.model.getNumCol(), len(costs)
        self.model.addVars(count, np.zeros(count), np.full(count, float(most)))
        at = np.arange(first, first + count, dtype=np.int32)
        self.model.changeColsCost(count, at, np.array(costs, dtype=float))
        if whole:
            kind = np.array([highspy.HighsVarType.kInteger] * count)
            self.model.changeColsIntegrality(count, at, kind)
        return list(range(first, first + count))

    def row(self, least, most, terms):
        at = np.array([own for own, _ in terms], dtype=np.int32)
        by = np.array([own for _, own in terms], dtype=float)
        self.model.addRow(least, most, len(terms), at, by)

    def solve(self, seconds):
        """The least cost that was found, and the values; nothing where nothing was."""
        self.model.setOptionValue("time_limit", max(seconds, 0.01))
        self.model.run()
        info = self.model.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return None, None
        return info.objective_function_value, list(self.model.getSolution().col_value)


def sheets_by_mip(instance, seconds):
    """Each piece, as it may lie, begins a strip or lies in that of one at least as wide; each
    strip begins a sheet or lies on that of another."""
    begun = time.perf_counter()
    long = max(kind[0] for kind in instance.kinds)
    lies = []
    for piece, size in enumerate(instance.sizes):
        lies += [(piece, own) for own in instance.ways(size)]
    lies.sort(key=lambda own: -own[1][1])
    strips, inf = range(len(lies)), highspy.kHighsInf
    rows = Rows()
    in_strip = {}
    for strip in strips:
        for own in strips[strip:]:
            if own == strip or lies[strip][0] != lies[own][0]:
                in_strip[strip, own] = rows.columns([0], 1)[0]
    # A strip on the sheet that another begins, and the kind of that sheet.
    on_sheet = {(a, b): rows.columns([0], 1)[0] for a in strips for b in strips[a:]}
    costs = [kind[2] for kind in instance.kinds]
    kind_of = [rows.columns(costs, 1) for _ in strips]
    for piece in range(len(instance.sizes)):
        own = [at for (_, lie), at in in_strip.items() if lies[lie][0] == piece]
        rows.row(1, 1, [(at, 1) for at in own])
    for strip in strips:
        begins = in_strip[strip, strip]
        others = [(at, lies[own][1][0]) for (s, own), at in in_strip.items() if s == strip != own]
        # No longer than the sheets are, which is a matter of its kind below.
        rows.row(-inf, 0, [*others, (begins, lies[strip][1][0] - long)])
        on = [(at, 1) for (_, own), at in on_sheet.items() if own == strip]
        rows.row(0, 0, [*on, (begins, -1)])
        sheet = on_sheet[strip, strip]
        rows.row(0, 0, [*((at, 1) for at in kind_of[strip]), (sheet, -1)])
        high = [(at, lies[own][1][1]) for (a, own), at in on_sheet.items() if a == strip]
        kinds = [(at, -kind[1]) for at, kind in zip(kind_of[strip], instance.kinds)]
        rows.row(-inf, 0, high + kinds)
        if len(instance.kinds) > 1:
            # A strip is as long as the kind of its sheet lets it be.
            for own in strips[strip:]:
                pieces = [(at, lies[p][1][0]) for (s, p), at in in_strip.items() if s == own]
                kinds = [(at, long - kind[0]) for at, kind in zip(kind_of[strip], instance.kinds)]
                rows.row(-inf, 2 * long, [*pieces, (on_sheet[strip, own], long), *kinds])
    cost, _ = rows.solve(seconds - (time.perf_counter() - begun))
    return (None if cost is None else round(cost)), None


def fullest(lengths, long, worth):
    """The way to fill a board that is worth the most, by dynamic programming."""
    best = np.zeros(long + 1)
    took = []
    for (length, count), value in zip(lengths, worth):
        for _ in range(min(count, long // length) if value > 1e-9 else 0):
            with_it = best.copy()
            with_it[length:] = np.maximum(best[length:], best[: long + 1 - length] + value)
            took.append((length, with_it > best))
            best = with_it
    way, room = {}, long
    for length, is_better in reversed(took):
        if is_better[room]:
            way[length] = way.get(length, 0) + 1
            room -= length
    return best[long], way


def boards_by_mip(instance, seconds):
    begun = time.perf_counter()
    left = lambda: seconds - (time.perf_counter() - begun)
    lengths, long = instance.lengths(), instance.kinds[0][0]
    at = {length: row for row, (length, _) in enumerate(lengths)}
    ways = [{length: min(count, long // length)} for length, count in lengths]
    while left() > 0:
        rows = cover(lengths, ways, at, whole=False)
        rows.solve(left())
        worth = list(rows.model.getSolution().row_dual)
        gain, way = fullest(lengths, long, worth)
        if gain < 1 + 1e-7 or way in ways:
            break
        ways.append(way)
    # What is left of the time is for whole boards, and no less than half a second.
    cost, _ = cover(lengths, ways, at, whole=True).solve(max(left(), 0.5))
    return (None if cost is None else round(cost)), None


def cover(lengths, ways, at, whole):
    rows = Rows()
    columns = rows.columns([1] * len(ways), sum(count for _, count in lengths), whole)
    terms = [[] for _ in lengths]
    for column, way in zip(columns, ways):
        for length, count in way.items():
            terms[at[length]].append((column, count))
    for (_, count), own in zip(lengths, terms):
        rows.row(count, highspy.kHighsInf, own)
    return rows


def own_plans(folder):
    """What this repository's search finds, by the name of the instance."""
    command = ["cargo", "bench", "--locked", "--quiet", "--bench", "cutting", "--", "--csv"]
    env = {**os.environ, "CASEWRIGHT_CUTTING": str(folder)}
    told = subprocess.run(command, cwd=ROOT, env=env, check=True, capture_output=True, text=True)
    return {row["name"]: row for row in csv.DictReader(io.StringIO(told.stdout))}


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--seconds", type=float, default=1, help="for each library and instance")
    parser.add_argument("--folder", type=Path, default=ROOT / "tests/data/cutting")
    asked = parser.parse_args()
    own = own_plans(asked.folder.resolve())
    print(
        f"{'instance':<22}{'best':>6}{'bound':>6} |{'own':>6}{'ms':>8} |"
        f"{'CP-SAT':>7}{'ms':>8}  sawn |{'HiGHS':>6}{'ms':>8}"
    )
    groups = {}
    for line in csv.DictReader((asked.folder / "best.csv").open()):
        is_boards = line["kind"] == "1d"
        for turns in [False] if is_boards else [False, True]:
            name = line["name"] + (" turned" if turns else "")
            instance = Instance(asked.folder, line["name"], is_boards, turns)
            models = [boards_by_cp, boards_by_mip] if is_boards else [sheets_by_cp, sheets_by_mip]
            told, results = "", [int(own[name]["taken"])]
            for model in models:
                start = time.perf_counter()
                cost, is_sawn = model(instance, asked.seconds)
                ms = 1000 * (time.perf_counter() - start)
                results.append(cost)
                shown = "-" if cost is None else cost
                told += f" |{shown:>6}{ms:>9.0f}"
                if model in (boards_by_cp, sheets_by_cp):
                    told += {None: "      ", True: "   yes", False: "    no"}[is_sawn]
            mine = own[name]
            print(
                f"{name:<22}{mine['best']:>6}{mine['bound']:>6} |"
                f"{mine['taken']:>6}{float(mine['ms']):>8.0f}{told}"
            )
            sys.stdout.flush()
            what = "boards" if is_boards else f"sheets by {line['objective']}"
            groups.setdefault(what, []).append((int(mine["best"]), results))
    for what, rows in groups.items():
        print(f"{what}: {len(rows)} runs")
        for at, library in enumerate(["own search", "CP-SAT", "HiGHS"]):
            known = [(best, results[at]) for best, results in rows if results[at] is not None]
            more = sum(cost - best for best, cost in known)
            of = sum(best for best, _ in known)
            print(
                f"  {library}: {len(known)} planned, {more:+} on {of} of the best known"
                f" ({100 * more / max(of, 1):+.1f} %); {sum(c <= b for b, c in known)} at the best"
            )


if __name__ == "__main__":
    main()
