#!/usr/bin/env python3
"""Mutants of the code book: are its tests sharp enough to notice a wrong one?

Usage: mutants.py SOURCES TREE PLAN
       Makes TREE a copy of SOURCES in which each comparison of a rule in src/code can be turned by the
       environment variable OHMFOLIO_MUTANT, and the tables can be read from the folder that
       OHMFOLIO_TABLES names. Writes what can be turned to PLAN, one mutant a line: number, place, change.
       Leaves out the changes of tests/data/equal_mutants.txt, which change nothing; an entry there that
       fits no line any more is a fault.

       mutants.py SOURCES TREE PLAN --without LOG
       Takes back the sites that the compiler complained of in LOG: lines where a comparison is no value.

       mutants.py run TEST PLAN TABLES [--every N] [--jobs N]
       Runs TEST once for each mutant of PLAN and once for each number of TABLES grown by a tenth (a whole
       number by one); prints those that no test noticed, and the count.
"""
import concurrent.futures
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

# What a comparison becomes: its boundary moved, and the whole turned round.
RELATIONS = {
    "<=": ["<", ">"],
    "<": ["<=", ">="],
    ">=": [">", "<"],
    ">": [">=", "<="],
    "==": ["!="],
    "!=": ["=="],
}
WORDS = {'"≤"': ['"<"', '"≥"'], '"≥"': ['"≤"'], '"<"': ['"≤"', '"≥"']}

HEADER = """// Written by tests/tools/mutants.py: comparisons that can be turned from outside.
#pragma once
#include <cstdlib>
#include <optional>
#include <string>
#pragma GCC diagnostic ignored "-Wparentheses" // a == At == b is meant so
#pragma GCC diagnostic ignored "-Wsign-compare"
namespace mutants {
inline int active() {
    static const int number = [] {
        const char* named = std::getenv("OHMFOLIO_MUTANT");
        return named == nullptr ? 0 : std::atoi(named);
    }();
    return number;
}
enum class Is { lt, le, gt, ge, eq, ne };
struct At { int first; Is was; Is one; Is two; };
template <class A, class B> auto holds(const A& a, Is is, const B& b) -> bool {
    switch (is) {
    case Is::lt: if constexpr (requires { a < b; }) { return a < b; } break;
    case Is::le: if constexpr (requires { a <= b; }) { return a <= b; } break;
    case Is::gt: if constexpr (requires { a > b; }) { return a > b; } break;
    case Is::ge: if constexpr (requires { a >= b; }) { return a >= b; } break;
    case Is::eq: if constexpr (requires { a == b; }) { return a == b; } break;
    case Is::ne: if constexpr (requires { a != b; }) { return a != b; } break;
    }
    std::abort();
}
template <class A> struct Left { const A& a; At at; };
template <class A> Left<A> operator<(const A& a, At at) { return {a, at}; }
template <class A> Left<A> operator==(const A& a, At at) { return {a, at}; }
template <class A, class B> bool decide(const Left<A>& left, const B& b) {
    const Is is = active() == left.at.first       ? left.at.one
                  : active() == left.at.first + 1 ? left.at.two
                                                  : left.at.was;
    return holds(left.a, is, b);
}
template <class A, class B> bool operator>(const Left<A>& left, const B& b) { return decide(left, b); }
template <class A, class B> bool operator==(const Left<A>& left, const B& b) { return decide(left, b); }
// Closer than the operators of std::optional, which take any left side.
template <class A, class B> bool operator>(const Left<A>& left, const std::optional<B>& b) {
    return decide(left, b);
}
template <class A, class B> bool operator==(const Left<A>& left, const std::optional<B>& b) {
    return decide(left, b);
}
inline const char* word(int first, const char* was, const char* one, const char* two) {
    return active() == first ? one : active() == first + 1 ? two : was;
}
} // namespace mutants
"""
NAMES = {"<": "lt", "<=": "le", ">": "gt", ">=": "ge", "==": "eq", "!=": "ne"}
# Lines on which a comparison is no value of the program, or only walks over a list.
NO_SITE = re.compile(
    r"^\s*(//|#|template|static_assert|friend)|\bfor \(|\bconstexpr\b|\boperator\b|\bcase\b|npos|\.end\(\)|"
    r"nullptr"
)
SITE = re.compile(r' (<=|>=|==|!=|<|>) |("≤"|"≥"|"<")')


EQUAL_MUTANTS = "tests/data/equal_mutants.txt"


def equal_mutants(sources):
    """Changes that nothing can notice: (file, line of it, change), from a line of four fields."""
    lines = [line for line in (sources / EQUAL_MUTANTS).read_text().splitlines()
             if line and not line.startswith("#")]
    return {tuple(line.split("\t")[:3]) for line in lines}


def in_string(line, at):
    return line[:at].count('"') % 2 == 1


def rewritten(line, place, plan, without, equal, seen):
    """The line with its sites; which entries of `equal` it has is added to `seen`."""
    if NO_SITE.search(line) or place in without:
        return line
    out, end = "", 0
    for site in SITE.finditer(line):
        relation, word = site.group(1), site.group(2)
        if relation and in_string(line, site.start()):
            continue
        first = len(plan) + 1
        changes = RELATIONS[relation] if relation else WORDS[word]
        left_out = {change: (place[0], line.strip(), f"{(relation or word)} -> {change}")
                    for change in changes}
        seen.update(equal.intersection(left_out.values()))
        changes = [change for change in changes if left_out[change] not in equal]
        if not changes:
            continue
        # A site with one change has no second number: there it stays as it was.
        two = changes[1] if len(changes) == 2 else relation or word
        for change in changes:
            plan.append((place, f"{(relation or word)} -> {change}"))
        if relation:
            tag = "::mutants::At{%d, ::mutants::Is::%s, ::mutants::Is::%s, ::mutants::Is::%s}" % (
                first, NAMES[relation], NAMES[changes[0]], NAMES[two])
            # The same precedence as the relation had, so that what stands around it stays as it was.
            new = f" == {tag} == " if relation in ("==", "!=") else f" < {tag} > "
        else:
            new = f"::mutants::word({first}, {word}, {changes[0]}, {two})"
        out += line[end:site.start()] + new
        end = site.end()
    return out + line[end:]


PARTS = ["CMakeLists.txt", "src", "tests", "examples", "symbols", "layouts", "scripts"]


def copy(sources, tree):
    """What has not changed keeps its time, and what is gone goes; the rules are written by rewrite()."""
    files = {file.relative_to(sources) for part in PARTS
             for file in [sources / part, *(sources / part).rglob("*")] if file.is_file()}
    for file in sorted(files):
        if is_rule(file):
            continue
        copied = tree / file
        if not copied.exists() or copied.read_bytes() != (sources / file).read_bytes():
            copied.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(sources / file, copied)
    for file in tree.rglob("*"):
        if file.is_file() and file.name != "mutants.h" and file.relative_to(tree) not in files:
            file.unlink()


def is_rule(file):
    return file.parent.as_posix() == "src/code" and file.suffix == ".cpp"


def rewrite(sources, tree, plan_file, without):
    copy(sources, tree)
    code = tree / "src" / "code"
    write_if_new(code / "mutants.h", HEADER)
    plan, equal, seen = [], equal_mutants(sources), set()
    for original in sorted((sources / "src" / "code").glob("*.cpp")):
        file = code / original.name
        lines = original.read_text().splitlines()
        name = original.relative_to(sources).as_posix()
        if file.name != "derivation.cpp":  # where the words are read
            lines = [rewritten(line, (name, number), plan, without, equal, seen)
                     for number, line in enumerate(lines, 1)]
        text = "\n".join(lines) + "\n"
        if file.name == "tables.cpp":
            text = tables_from_outside(text)
        text = '#include "code/mutants.h" // keeps the lines in their places by #line\n#line 1\n' + text
        write_if_new(file, text)
    # A line that the compiler refused is not looked at, and so tells nothing of its entries.
    if not without:
        refuse_stale({entry for entry in equal - seen if entry[0].endswith(".cpp")})
    plan_file.write_text("".join(
        f"{number}\t{place[0]}:{place[1]}\t{change}\n"
        for number, (place, change) in enumerate(plan, 1)))


def refuse_stale(entries):
    if entries:
        sys.exit("\n".join(f"{EQUAL_MUTANTS}: no line has {' | '.join(entry)}"
                           for entry in sorted(entries)))


def write_if_new(file, text):
    """What has not changed is not compiled again."""
    if not file.exists() or file.read_text() != text:
        file.write_text(text)


def tables_from_outside(text):
    reader = """
#include <fstream>
#include <iterator>
#include <deque>
namespace ohmfolio { namespace {
std::string_view outside(std::string_view name, std::string_view text) {
    const char* folder = std::getenv("OHMFOLIO_TABLES");
    if (folder == nullptr) return text;
    static std::deque<std::string> kept;
    std::ifstream in(std::string(folder) + "/" + std::string(name) + ".toml");
    kept.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
    return kept.back();
}
} }
"""
    body = text.replace("texts.push_back({table.name, table.text});",
                        "texts.push_back({table.name, outside(table.name, table.text)});")
    assert body != text
    place = body.index("namespace ohmfolio {")
    return f"{body[:place]}{reader}#line {body[:place].count(chr(10)) + 1}\n{body[place:]}"


def complained(log):
    """Places that the compiler names in errors, by the lines of the original."""
    found = re.findall(r"(src/code/[a-z_0-9]+\.cpp):(\d+):\d+: (?:error|  required from here|note)", log)
    return {(name, int(line)) for name, line in found}


NUMBER = re.compile(r"(?<![\w.\"+-])(\d+(?:\.\d+)?)(?![\w.%\"])")


def table_mutants(tables):
    """Each number of a table that is no year and no text: (file, line, column, new text)."""
    for file in sorted(pathlib.Path(tables).glob("*.toml")):
        for number, line in enumerate(file.read_text().splitlines(), 1):
            bare = re.sub(r'"[^"]*"', lambda m: " " * len(m.group()), line.split("#")[0])
            if bare.strip().startswith("["):
                continue
            for site in NUMBER.finditer(bare):
                if re.match(r"(2017|2020|2023)$", site.group()):
                    continue
                old = site.group(1)
                new = f"{float(old) * 1.1:.6g}" if "." in old else str(int(old) + 1)
                yield file, number, site.start(), old, new


def tables_to_turn(tables):
    """Without those that change nothing."""
    equal = equal_mutants(pathlib.Path(__file__).parents[2])
    mutants, left_out = [], set()
    for file, number, column, old, new in table_mutants(tables):
        line = file.read_text().splitlines()[number - 1].strip()
        entry = (f"src/code/tables/{file.name}", line, f"{old} -> {new}")
        if entry in equal:
            left_out.add(entry)
        else:
            mutants.append((file, number, column, old, new))
    refuse_stale({entry for entry in equal - left_out if entry[0].endswith(".toml")})
    return mutants


def run(test, plan_file, tables, every, jobs):
    source = [line.split("\t") for line in pathlib.Path(plan_file).read_text().splitlines()]
    tasks = [("code", *row) for row in source] + [("table", *row) for row in tables_to_turn(tables)]
    tasks = tasks[::every]

    def alive(task):
        environment = dict(os.environ)
        if task[0] == "code":
            environment["OHMFOLIO_MUTANT"] = task[1]
            return not fails(test, environment)
        _, file, number, column, old, new = task
        with tempfile.TemporaryDirectory() as folder:
            shutil.copytree(tables, folder, dirs_exist_ok=True)
            lines = file.read_text().splitlines(keepends=True)
            line = lines[number - 1]
            lines[number - 1] = line[:column] + new + line[column + len(old):]
            (pathlib.Path(folder) / file.name).write_text("".join(lines))
            environment["OHMFOLIO_TABLES"] = folder
            return not fails(test, environment)

    survivors = 0
    with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
        for task, lives in zip(tasks, pool.map(alive, tasks)):
            if lives:
                survivors += 1
                if task[0] == "code":
                    print(f"alive: {task[2]}: {task[3]}", flush=True)
                else:
                    print(f"alive: {task[1].name}:{task[2]}: {task[4]} -> {task[5]}", flush=True)
    print(f"{len(tasks)} mutants, {len(tasks) - survivors} noticed, {survivors} not")
    return 1 if survivors else 0


def fails(test, environment):
    """The tests with published figures first, which are quick; those of random jobs when none noticed."""
    random = sorted(file.stem for file in
                    (pathlib.Path(__file__).parents[1] / "code").glob("*property_test.cpp"))
    others = "".join(f"~[#{name}]" for name in random)
    return any(fails_by(test, tests, environment)
               for tests in (others, ",".join(f"[#{name}]" for name in random)))


def fails_by(test, tests, environment):
    try:
        return subprocess.run([test, "--abort", "-#", tests], env=environment,
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              timeout=120).returncode != 0
    except subprocess.TimeoutExpired:
        return True


def main(arguments):
    if len(arguments) >= 4 and arguments[0] == "run":
        option = lambda name, usual: (int(arguments[arguments.index(name) + 1])
                                      if name in arguments else usual)
        return run(arguments[1], arguments[2], arguments[3], option("--every", 1),
                   option("--jobs", os.cpu_count()))
    if len(arguments) in (3, 5):
        sources, tree, plan = (pathlib.Path(each) for each in arguments[:3])
        without = set()
        if len(arguments) == 5:
            kept = plan.with_suffix(".without")
            text = (kept.read_text() if kept.exists() else "") + pathlib.Path(arguments[4]).read_text()
            kept.write_text(text)
            without = complained(text)
        rewrite(sources, tree, plan, without)
        return 0
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
