#!/usr/bin/env python3
"""Mutation testing of the whole library in one build.

`cargo mutants` builds the crate anew for each of some ten thousand mutants,
which takes days. This takes its list of mutants, writes all of them into one
copy of the source, each behind a condition on its number, builds that copy
once, finds out which tests reach which mutant, and runs for each mutant the
tests that reach it until one fails: an hour or two on two cores.

    pip install tree-sitter tree-sitter-rust
    cargo install --locked cargo-mutants
    .ci/mutants.py build  WORK      copy, mutate, compile, see what tests reach
    .ci/mutants.py run    WORK      try what has no verdict yet (can be stopped)
    .ci/mutants.py retest WORK      tests taken anew; the missed tried again
    .ci/mutants.py report WORK      the count, and the missed one by one

WORK is a folder of its own outside the crate. A mutant that does not compile is
not viable and does not count; nor is `||` in a chain of `let`. What the conditions
cannot express (constants that others are made of, array lengths) is listed as not
tried: use `cargo mutants --file … --re …` for those. Documentation tests are not
run.

What an earlier build in WORK has found is used: the test that caught a mutant is
tried first, and a mutant of an unchanged function that all tests missed is tried
only with tests that are new since (FRESH=name,name: and with those that begin so).
"""

import collections
import concurrent.futures
import json
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys
import time

CRATE = pathlib.Path(__file__).resolve().parent.parent
# Tests that look at the source text, need a browser or repeat others say nothing here.
PASSED_OVER = (
    "architecture::",
    "schedule_browser::",
    # The same work as reference::every_value_agrees_with_its_source.
    "reference::nothing_is_left_out",
    "reference::the_table_of_references_is_current",
)
# What the trials of a mutant may take one after another, in seconds of test time.
BUDGETS = (0.6, 5.0, 1e9)
RUNTIME = """//! Which mutant is on: `MUTANT`; or which are reached: appended to `REACHED`.
#![allow(missing_docs)]
use std::io::Write;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering::Relaxed};
const UNREAD: u32 = u32::MAX;
const RECORDING: u32 = u32::MAX - 1;
static ON: AtomicU32 = AtomicU32::new(UNREAD);
static SEEN: [AtomicBool; 65536] = [const { AtomicBool::new(false) }; 65536];
static FILE: OnceLock<Option<std::fs::File>> = OnceLock::new();
#[inline(always)]
pub fn on(id: u32) -> bool {
    let now = ON.load(Relaxed);
    if now >= RECORDING { return slowly(now, id); }
    now == id
}
#[cold]
fn slowly(now: u32, id: u32) -> bool {
    if now == UNREAD {
        let path = std::env::var("REACHED").ok();
        let chosen = std::env::var("MUTANT").ok().and_then(|s| s.parse().ok());
        let open = |p| std::fs::OpenOptions::new().append(true).create(true).open(p).ok();
        ON.store(if path.is_some() { RECORDING } else { chosen.unwrap_or(65535) }, Relaxed);
        FILE.get_or_init(|| path.and_then(open));
        return on(id);
    }
    let seen = &SEEN[id as usize];
    if !seen.load(Relaxed) && !seen.swap(true, Relaxed) {
        if let Some(Some(file)) = FILE.get() {
            let _ = (&mut &*file).write_all(format!("{id}\\n").as_bytes());
        }
    }
    false
}
"""


class Work:
    """The folder, and what is known so far."""

    def __init__(self, path):
        self.path = pathlib.Path(path).resolve()
        self.copy = self.path / "crate"
        self.source = self.path / "source"
        self.mutants = self.read("mutants.json", [])
        self.dropped = {int(k): v for k, v in self.read("dropped.json", {}).items()}
        self.constant = set(self.read("constant.json", []))
        self.verdicts = self.read("verdicts.json", {})
        self.hints = self.read("hints.json", {})
        self.env = dict(os.environ, CARGO_TARGET_DIR=str(self.path / "target"), RUSTFLAGS="-Awarnings")

    def read(self, name, default):
        file = self.path / name
        return json.loads(file.read_text()) if file.exists() else default

    def write(self, name, what):
        file = self.path / name
        file.with_suffix(".new").write_text(json.dumps(what))
        file.with_suffix(".new").replace(file)

    def keep(self):
        self.write("dropped.json", self.dropped)
        self.write("constant.json", sorted(self.constant))


def keys(work):
    """A name for each mutant that moved lines do not change, and its function's text."""
    texts, met, result = {}, collections.Counter(), []
    for mutant in work.mutants:
        name = mutant["file"]
        if name not in texts:
            texts[name] = (work.source / name).read_text().split("\n")
        span = (mutant["function"] or mutant)["span"]
        lines = texts[name][span["start"]["line"] - 1 : span["end"]["line"]]
        key = name + re.sub(r":\d+:\d+", "", mutant["name"])
        met[key] += 1
        result.append((f"{key} {met[key]}", "\n".join(lines)))
    return result


# --- the mutated copy ---------------------------------------------------------


class File:
    """One source file with its mutants written in."""

    def __init__(self, work, name, parser):
        self.work, self.name = work, name
        text = (work.source / name).read_text()
        self.bytes = text.encode()
        self.lines = text.split("\n")
        self.starts = [0]
        for line in self.lines:
            self.starts.append(self.starts[-1] + len(line.encode()) + 1)
        self.at = collections.defaultdict(list)
        for number, mutant in enumerate(work.mutants):
            if mutant["file"] == name:
                span = mutant["span"]
                place = (self.offset(span["start"]), self.offset(span["end"]))
                self.at[(*place, mutant["genre"])].append((number, mutant["replacement"]))
        self.placed = set()
        self.in_constant = False
        self.root = parser.parse(self.bytes).root_node
        self.lazy = {self.name_of(c) for c in self.root.children if self.can_be_lazy(c)}

    def name_of(self, item):
        name = item.child_by_field_name("name")
        return self.text(name.start_byte, name.end_byte)

    def can_be_lazy(self, item):
        """A private constant with mutants, or of a function, that no item is made of."""
        if item.type != "const_item" or item.children[0].type == "visibility_modifier":
            return False
        name = re.compile(rb"\b%s\b" % self.name_of(item).encode())
        calls = re.findall(r"\b([a-z_]+)\(", self.text(item.start_byte, item.end_byte))
        mutants = any(item.start_byte <= key[0] < item.end_byte for key in self.at)
        mutated = any(m["file"] == self.name and (m["function"] or {}).get("function_name") in calls for m in self.work.mutants)
        may_use = ("function_item", "impl_item", "line_comment", "block_comment", "use_declaration")
        others = [c for c in self.root.children if c.type not in may_use and c != item]
        return (mutants or mutated) and not any(name.search(self.bytes[c.start_byte : c.end_byte]) for c in others)

    def offset(self, place):
        line = self.lines[place["line"] - 1]
        return self.starts[place["line"] - 1] + len(line[: place["column"] - 1].encode())

    def text(self, start, end):
        return self.bytes[start:end].decode()

    def live(self, start, end, genre):
        """The mutants of a place that still compile."""
        key = (start, end, genre)
        if key not in self.at or self.in_constant:
            return []
        self.placed.add(key)
        return [m for m in self.at[key] if m[0] not in self.work.dropped]

    def live_from(self, start, genre):
        ends = [key[1] for key in self.at if key[0] == start and key[2] == genre]
        return self.live(start, ends[0], genre) if ends else []

    def whole(self):
        head = self.text(0, self.root.start_byte)
        result = head + self.emit(self.root)
        for key, mutants in self.at.items():
            if key not in self.placed:
                for number, _ in mutants:
                    self.work.dropped.setdefault(number, "not tried")
        return result

    def plain(self, node, start=None, end=None):
        start = node.start_byte if start is None else start
        end = node.end_byte if end is None else end
        result, place = "", start
        for child in node.children:
            if child.start_byte >= start and child.end_byte <= end:
                result += self.text(place, child.start_byte) + self.emit(child)
                place = child.end_byte
        return result + self.text(place, end)

    def emit(self, node):
        change = getattr(self, "emit_" + node.type, None)
        return (change and change(node)) or self.plain(node)

    def emit_function_item(self, node):
        name = node.child_by_field_name("name")
        head = self.text(node.start_byte, name.start_byte)
        constant = re.search(r"\bconst\b", head)
        stays = constant and self.text(name.start_byte, name.end_byte) in self.work.constant
        before, self.in_constant = self.in_constant, bool(stays)
        result = self.plain(node)
        self.in_constant = before
        return result if stays or not constant else re.sub(r"\bconst (?=fn\b)", "", result, count=1)

    def emit_identifier(self, node):
        name = self.text(node.start_byte, node.end_byte)
        return f"(*{name})" if name in self.lazy else None

    def emit_const_item(self, node):
        if node.parent == self.root and self.name_of(node) in self.lazy:
            kind = node.child_by_field_name("type")
            kind = self.text(kind.start_byte, kind.end_byte)
            value = self.emit(node.child_by_field_name("value"))
            lazy = "std::sync::LazyLock"
            return f"static {self.name_of(node)}: {lazy}<{kind}> = {lazy}::new(|| {value});"
        return self.emit_static_item(node)

    def emit_static_item(self, node):
        before, self.in_constant = self.in_constant, True
        result = self.plain(node)
        self.in_constant = before
        return result

    def emit_block(self, node):
        if node.parent is None or node.parent.type != "function_item" or self.in_constant:
            return None
        inner = [b for b in self.bodies(node)]
        first, emptied = "", None
        for start, end, genre in list(self.at):
            inside = node.start_byte < start < node.end_byte
            if genre == "FnValue" and inside and not any(b.start_byte < start < b.end_byte for b in inner):
                for number, value in self.live(start, end, genre):
                    if "impl Iterator" in (self.work.mutants[number]["function"]["return_type"] or ""):
                        if value == "::std::iter::empty()":
                            emptied = number
                        else:
                            self.work.dropped[number] = "not tried"
                    else:
                        first += marked(number, f" if {on(number)} {{ return {value}; }} ")
        body = "{" + first + self.plain(node, node.start_byte + 1)
        if emptied is None:
            return body
        return marked(emptied, f"{{ Iterator::filter({body}, |_| !{on(emptied)}) }}")

    def bodies(self, node):
        for child in node.children:
            if child.type == "function_item":
                body = child.child_by_field_name("body")
                if body:
                    yield body
            else:
                yield from self.bodies(child)

    def emit_binary_expression(self, node):
        sign = node.child_by_field_name("operator")
        live = self.live(sign.start_byte, sign.end_byte, "BinaryOperator")
        if not live:
            return None
        operator = self.text(sign.start_byte, sign.end_byte)
        if operator == "&&" and node.parent.type == "let_chain":
            self.work.dropped[live[0][0]] = "let"
            return None
        left = self.emit(node.child_by_field_name("left"))
        right = self.emit(node.child_by_field_name("right"))
        if operator in ("&&", "||"):
            number = live[0][0]
            goes_on = "!=" if operator == "&&" else "=="
            chosen = f"if __l {goes_on} {on(number)} {{ {right} }} else {{ __l }}"
            return marked(number, f"({{ let __l: bool = {left}; {chosen} }})")
        if node.type == "compound_assignment_expr":
            arms = f"if !({any_of(live)}) {{ {left} {operator} __r; }}"
            for number, other in live:
                arms += f" else if {on(number)} {{ {marked(number, f'{left} {other} __r;')} }}"
            return marked(live[0][0], f"(match {right} {{ __r => {{ {arms} }} }})")
        compares = operator in ("<", ">", "<=", ">=", "==", "!=")
        l, r = ("*__l", "*__r") if compares else ("__l", "__r")
        both = f"(&({left}), &({right}))" if compares else f"({left}, {right})"
        arms = f"if !({any_of(live)}) {{ {l} {operator} {r} }}"
        for number, other in live[:-1]:
            arms += f" else if {on(number)} {{ {marked(number, f'{l} {other} {r}')} }}"
        number, other = live[-1]
        arms += f" else {{ {marked(number, f'{l} {other} {r}')} }}"
        return marked(live[0][0], f"(match {both} {{ (__l, __r) => {arms} }})")

    def emit_let_chain(self, node):
        for sign in node.children:
            for number, _ in self.live(sign.start_byte, sign.end_byte, "BinaryOperator"):
                self.work.dropped[number] = "let"

    emit_compound_assignment_expr = emit_binary_expression

    def emit_unary_expression(self, node):
        sign = node.children[0]
        live = self.live(sign.start_byte, sign.end_byte, "UnaryOperator")
        if not live:
            return None
        operator, value = self.text(sign.start_byte, sign.end_byte), self.emit(node.children[-1])
        chosen = f"if {on(live[0][0])} {{ __v }} else {{ {operator}__v }}"
        return marked(live[0][0], f"(match {value} {{ __v => {chosen} }})")

    def emit_match_arm(self, node):
        pattern = node.child_by_field_name("pattern")
        guard = pattern.child_by_field_name("condition")
        deleted = self.live_from(node.start_byte, "MatchArm")
        if deleted and not self.has_catch_all(node.parent):
            self.work.dropped[deleted[0][0]] = "E0004"
            deleted = []
        changed = guard and self.live(guard.start_byte, guard.end_byte, "MatchArmGuard")
        if not deleted and not changed:
            return None
        rest = self.plain(node, pattern.end_byte)
        before = self.text(node.start_byte, pattern.start_byte)
        if guard is None:
            number = deleted[0][0]
            condition = marked(number, f" if !{on(number)}")
            return before + self.text(pattern.start_byte, pattern.end_byte) + condition + rest
        condition = self.emit(guard)
        for number, value in changed:
            condition = f"if {on(number)} {{ {value} }} else {{ {condition} }}"
        condition = marked(changed[0][0], f"({condition})") if changed else f"({condition})"
        if deleted:
            number = deleted[0][0]
            condition = marked(number, f"!{on(number)} && {condition}")
        return before + self.text(pattern.start_byte, guard.start_byte) + condition + rest

    def has_catch_all(self, arms):
        for arm in arms.children:
            if arm.type == "match_arm":
                pattern = arm.child_by_field_name("pattern")
                words = self.text(pattern.start_byte, pattern.end_byte)
                if words not in ("true", "false") and re.fullmatch(r"[\s(_,)]*|[a-z_]+|\(?\.\.\)?", words):
                    return True
        return False

    def emit_field_initializer(self, node):
        live = self.live_from(node.start_byte, "StructField")
        base = [c for c in node.parent.children if c.type == "base_field_initializer"]
        if not live or not base:
            return None
        value = node.child_by_field_name("value")
        field = node.child_by_field_name("field")
        name = self.text(field.start_byte, field.end_byte) if field else self.text(node.start_byte, node.end_byte)
        rest = self.text(base[0].start_byte + 2, base[0].end_byte).strip()
        new = self.emit(value) if value else name
        chosen = f"(if {on(live[0][0])} {{ ({rest}).{name} }} else {{ {new} }})"
        return f"{name}: " + marked(live[0][0], chosen)

    emit_shorthand_field_initializer = emit_field_initializer


def on(number):
    return f"crate::mutation::on({number})"


def any_of(live):
    return " || ".join(on(number) for number, _ in live)


def marked(number, text):
    return f"/*m{number}*/{text}/*e{number}*/"


def mutate(work):
    """Writes the copy anew without what is dropped."""
    import tree_sitter
    import tree_sitter_rust

    parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_rust.language()))
    for name in sorted({m["file"] for m in work.mutants}):
        new = File(work, name, parser).whole()
        to = work.copy / name
        if to.read_text() != new:
            to.write_text(new)
    root = (work.source / "src/lib.rs").read_text().replace("#![forbid(unsafe_code)]", "")
    root = root.replace("pub mod units;", "#[doc(hidden)]\npub mod mutation;\npub mod units;", 1)
    (work.copy / "src/lib.rs").write_text(root)
    (work.copy / "src/mutation.rs").write_text(RUNTIME)


def errors(work):
    command = ["cargo", "check", "--lib", "--all-features", "--message-format=json"]
    done = subprocess.run(command, cwd=work.copy, env=work.env, capture_output=True, text=True)
    for line in done.stdout.splitlines():
        message = json.loads(line).get("message")
        if isinstance(message, dict) and message["level"] == "error" and message["spans"]:
            yield message


def blamed(work, message, known):
    """The innermost mutant that an error of the compiler lies in."""
    for span in sorted(message["spans"], key=lambda s: not s["is_primary"]):
        name = span["file_name"]
        if not (work.copy / name).exists() or not name.startswith("src/"):
            continue
        if name not in known:
            stack, ranges = [], []
            for mark in re.finditer(rb"/\*([me])(\d+)\*/", (work.copy / name).read_bytes()):
                if mark[1] == b"m":
                    stack.append(mark.start())
                else:
                    ranges.append((stack.pop(), mark.end(), int(mark[2])))
            known[name] = ranges
        over = [r for r in known[name] if r[0] <= span["byte_start"] and span["byte_end"] <= r[1]]
        if over:
            return min(over, key=lambda r: r[1] - r[0])[2]
    return None


def build(work):
    work.path.mkdir(parents=True, exist_ok=True)
    before = {}
    for number, (key, function) in enumerate(keys(work)):
        known = work.verdicts.get(str(number)) or work.hints.get(str(number))
        if known:
            before[key] = (known, function)
    shutil.rmtree(work.source, ignore_errors=True)
    shutil.copytree(CRATE / "src", work.source / "src")
    shutil.rmtree(work.copy, ignore_errors=True)
    subprocess.run(["git", "clone", "--quiet", str(CRATE), str(work.copy)], check=True)
    listed = ["cargo", "mutants", "--list", "--json"]
    found = subprocess.run(listed, cwd=CRATE, capture_output=True, text=True, check=True)
    work.mutants = json.loads(found.stdout)
    work.dropped, work.verdicts = {}, {}
    work.constant, work.hints = set(), {}
    for number, (key, function) in enumerate(keys(work)):
        known, earlier = before.get(key, (None, ""))
        if known and (known[0] == "caught" or function == earlier):
            work.hints[str(number)] = known
    work.write("mutants.json", work.mutants)
    work.write("verdicts.json", {})
    work.write("hints.json", work.hints)
    while True:
        mutate(work)
        known, before = {}, len(work.dropped) + len(work.constant)
        unblamed, wrong = [], 0
        for message in errors(work):
            wrong += 1
            code = (message["code"] or {}).get("code")
            needs_const = re.search(r"non-const [a-z ]*`([^`]+)`", message["message"])
            if code == "E0015" and needs_const and needs_const[1] != "on":
                work.constant.add(re.sub(r"<.*", "", needs_const[1].split("::")[-1]))
                continue
            number = blamed(work, message, known)
            if number is None:
                unblamed.append(message["rendered"])
            else:
                work.dropped.setdefault(number, code)
        work.keep()
        print(f"{wrong} errors, {len(work.dropped)} of {len(work.mutants)} dropped", flush=True)
        if not wrong:
            break
        if len(work.dropped) + len(work.constant) == before:
            sys.exit("no mutant is to blame for:\n" + "\n".join(unblamed[:5]))
    retest(work)


# --- the tests ----------------------------------------------------------------


def retest(work):
    """Takes tests and examples as they are now, builds, and sees what is reached."""
    for part in ("tests", "examples", "references.md", "README.md"):
        to = work.copy / part
        shutil.rmtree(to) if to.is_dir() else to.unlink(missing_ok=True)
        copy = shutil.copytree if (CRATE / part).is_dir() else shutil.copy
        copy(CRATE / part, to)
    # Functions are not `const` in the copy, so those of examples cannot be.
    for file in work.copy.glob("examples/*/job/*.rs"):
        file.write_text(file.read_text().replace("const fn", "fn"))
    manifest = (CRATE / "Cargo.toml").read_text()
    manifest = re.sub(r"\[lints\.rust\].*?(?=\[\[test\]\])", "", manifest, flags=re.S)
    manifest = manifest[: manifest.index("[profile.dev]")]
    quick = "opt-level = 2\ndebug = 0\nincremental = false\ncodegen-units = 64\n"
    (work.copy / "Cargo.toml").write_text(manifest + "[profile.dev]\n" + quick)
    command = ["cargo", "test", "--all-features", "--no-run", "--message-format=json"]
    done = subprocess.run(command, cwd=work.copy, env=work.env, stdout=subprocess.PIPE, text=True, check=True)
    suite = None
    for line in done.stdout.splitlines():
        message = json.loads(line)
        if message.get("executable") and message["target"]["name"] == "suite":
            suite = message["executable"]
    listed = subprocess.run([suite, "--list"], capture_output=True, text=True, check=True, cwd=work.copy)
    tests = {}
    for line in listed.stdout.splitlines():
        name = line.removesuffix(": test")
        if name == line or name.startswith(PASSED_OVER):
            continue
        reached = work.path / "reached"
        reached.unlink(missing_ok=True)
        test(work, suite, [name], {"REACHED": str(reached)}, 600)
        start = time.time()
        passes = test(work, suite, [name], {"MUTANT": "65535"}, 600) == "passed"
        ids = sorted({int(x) for x in reached.read_text().split()}) if reached.exists() else []
        tests[name] = {"time": time.time() - start, "passes": passes, "reached": ids}
        if not passes:
            print("fails without a mutant:", name, flush=True)
    known = work.read("tests.json", {"tests": {}})["tests"]
    named = tuple(filter(None, os.environ.get("FRESH", "").split(",")))
    fresh = [name for name in tests if name not in known or name.startswith(named)]
    work.write("tests.json", {"suite": suite, "tests": tests, "fresh": fresh})
    work.hints.update({k: v for k, v in work.verdicts.items() if v[0] == "missed"})
    work.write("hints.json", work.hints)
    work.verdicts = {k: v for k, v in work.verdicts.items() if v[0] in ("caught", "timeout")}
    work.write("verdicts.json", work.verdicts)


def test(work, suite, names, env, limit):
    def bounded():
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))

    command = [suite, *names, "--exact", "--test-threads=1"]
    env = {**os.environ, **env, "PROPTEST_MAX_SHRINK_ITERS": "0", "PROPTEST_DISABLE_FAILURE_PERSISTENCE": "1"}
    try:
        done = subprocess.run(
            command, cwd=work.copy, env=env, capture_output=True, text=True, timeout=limit, preexec_fn=bounded
        )
    except subprocess.TimeoutExpired:
        return "timeout"
    if done.returncode == 0:
        return "passed"
    failed = re.search(r"^test (\S+) \.\.\. FAILED", done.stdout, re.M)
    return failed[1] if failed else "?"


def run(work):
    known = work.read("tests.json", None)
    suite, tests = known["suite"], {n: t for n, t in known["tests"].items() if t["passes"]}
    reaching = collections.defaultdict(list)
    for name, about in tests.items():
        for number in about["reached"]:
            reaching[number].append(name)
    kills, fresh = collections.Counter(), set(known.get("fresh", ()))

    def rank(name):
        narrow = len(tests[name]["reached"]) + 100
        return (tests[name]["time"] + 0.02) * narrow / (1 + min(kills[name], 50))

    def attempt(number, budget):
        names = sorted(reaching[number], key=rank)
        if not names:
            return "unreached", ""
        hint, by = work.hints.get(str(number), ("", ""))
        if hint == "missed":
            names = [name for name in names if name in fresh]
        if hint == "caught" and by in names:
            names.remove(by)
            if test(work, suite, [by], {"MUTANT": str(number)}, 20 + tests[by]["time"] * 8) != "passed":
                return "caught", by
        spent, size = 0.0, 0.15
        while names and spent <= budget:
            batch, total = [], 0.0
            while names and total <= size:
                batch.append(names.pop(0))
                total += tests[batch[-1]]["time"]
            size, spent = min(size * 3, 8), spent + total
            result = test(work, suite, batch, {"MUTANT": str(number)}, 20 + total * 8)
            if result == "timeout":
                return "timeout", ""
            if result != "passed":
                kills[result] += 1
                return "caught", result
        return ("missed" if not names else "missed so far"), ""

    for budget in BUDGETS:
        again = ("missed so far",) if budget > BUDGETS[0] else ()
        todo = [n for n in range(len(work.mutants)) if n not in work.dropped]
        todo = [n for n in todo if str(n) not in work.verdicts or work.verdicts[str(n)][0] in again]
        random.Random(1).shuffle(todo)
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            for done, (number, verdict) in enumerate(zip(todo, pool.map(lambda n: attempt(n, budget), todo)), 1):
                work.verdicts[str(number)] = verdict
                if done % 200 == 0 or done == len(todo):
                    work.write("verdicts.json", work.verdicts)
                    print(f"{done} of {len(todo)}:", dict(collections.Counter(v[0] for v in work.verdicts.values())), flush=True)


def report(work):
    count = collections.Counter(v[0] for v in work.verdicts.values())
    print(dict(count))
    tried = sum(count.values())
    if tried:
        print(f"{100 * (count['caught'] + count['timeout']) / tried:.1f} % of {tried} caught")
    for why in ("missed", "missed so far", "unreached"):
        for number, verdict in sorted(work.verdicts.items(), key=lambda v: work.mutants[int(v[0])]["name"]):
            if verdict[0] == why:
                print(f"{why}: {work.mutants[int(number)]['name']}")
    for number, why in work.dropped.items():
        if why in ("not tried", "E0015"):
            print("not tried:", work.mutants[number]["name"])


if __name__ == "__main__":
    if len(sys.argv) != 3 or sys.argv[1] not in ("build", "run", "retest", "report"):
        sys.exit(__doc__)
    globals()[sys.argv[1]](Work(sys.argv[2]))
