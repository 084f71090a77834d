"""No test and no bench waits without an end, however it is started."""

import ast
from pathlib import Path

TESTS = Path(__file__).parent
FILES = sorted(TESTS.rglob("*.py"))
# What waits until something else is done, and which argument, if any, is the time it takes.
CALLS = {
    "wait": 1,
    "join": 1,  # of a thread; text has always something to join
    "get": 1,  # of a queue; a dictionary is always asked for something
    "result": 1,
    "acquire": 1,
    "communicate": 2,
    "run": None,
    "call": None,
    "check_call": None,
    "check_output": None,
    "select": 4,
    "urlopen": 3,
    "create_connection": 2,
    "get_iopub_msg": 1,
    "get_shell_msg": 1,
    "execute_interactive": None,
}
OF = {name: {"subprocess"} for name in ("run", "call", "check_call", "check_output")}
OF["select"] = {"select"}
ENDLESS = {"pause", "waitpid", "wait4"}
READING = {"read", "readline", "readlines"}
PIPES = {"stdout", "stderr"}


def name_of(node):
    """Give the last name of what is called."""
    return getattr(node, "attr", getattr(node, "id", ""))


def is_pipe(node):
    """Tell whether it is the pipe of a process: `process.stdout`, not `sys.stdout`."""
    named = isinstance(node, ast.Attribute) and node.attr in PIPES
    return named and name_of(node.value) != "sys"


def waits(call):
    """Tell whether a call may wait for ever."""
    name, owner = name_of(call.func), name_of(getattr(call.func, "value", None))
    if name in ENDLESS:
        return owner in {"os", "signal"}
    if name not in CALLS or owner not in OF.get(name, {owner}):
        return False
    place = CALLS[name]
    given = place is not None and len(call.args) >= place
    return not given and not any(word.arg in {"timeout", None} for word in call.keywords)


def reads_a_pipe(node):
    """Tell whether words of a process are read that may never come."""
    if isinstance(node, ast.Call) and name_of(node.func) in READING:
        return is_pipe(getattr(node.func, "value", None))
    return isinstance(node, (ast.For, ast.comprehension)) and is_pipe(node.iter)


def leaves_a_process(node):
    """Tell whether a process is opened in a `with`, which waits for it at its end."""
    calls = [item.context_expr for item in getattr(node, "items", ())]
    return any(isinstance(c, ast.Call) and name_of(c.func) == "Popen" for c in calls)


def endless(tree):
    """Give the lines that may wait for ever."""
    nodes = list(ast.walk(tree))
    calls = [node for node in nodes if isinstance(node, ast.Call)]
    found = [call for call in calls if waits(call)]
    found += [node for node in nodes if leaves_a_process(node)]
    if not any(
        name_of(call.func) == "Timer" for call in calls
    ):  # it ends what is read from
        found += [getattr(n, "iter", n) for n in nodes if reads_a_pipe(n)]
    return sorted(node.lineno for node in found)


def test_no_wait_is_without_an_end():
    found = [
        f"{path.name}:{line}"
        for path in FILES
        for line in endless(ast.parse(path.read_text("utf-8")))
    ]
    assert found == []


BAD = """
process.wait()
thread.join()
process.communicate("a")
queue.get()
subprocess.run(["a"], check=True)
subprocess.check_output(["a"])
urlopen("a")
select.select([a], [], [])
process.stdout.read()
for line in process.stdout: pass
with subprocess.Popen("a") as b: pass
"""
GOOD = """
process.wait(10)
thread.join(timeout=3)
", ".join(words)
known.get("a")
process.communicate(timeout=2)
subprocess.run(["a"], timeout=9)
subprocess.run(["a"], **more)
urlopen("a", timeout=2)
runner.run()
sys.stdout.write("a")
run.stdout.splitlines()
"""


def test_the_law_sees_what_it_should():
    assert endless(ast.parse(BAD)) == list(range(2, 13))
    assert endless(ast.parse(BAD + "threading.Timer(9, process.kill)")) == [
        *range(2, 10),
        12,
    ]
    assert endless(ast.parse(GOOD)) == []
