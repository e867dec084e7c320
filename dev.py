#!/usr/bin/env python3
"""Set up and run parbuckle from a fresh checkout; nothing but Python is needed.

    python3 dev.py run             plan the example case here, write brief.pdf into this folder
    python3 dev.py run ARGS...     hand ARGS to the parbuckle command; serve builds the page first
    python3 dev.py test            the page, guards, ruff, mypy and all tests
    python3 dev.py test ARGS...    pytest with ARGS only

Both make a private .venv beside this file from the hashed lock files. This script itself talks on standard error only.
It is written so that any Python can read it: an old one says what is needed instead of failing on the syntax.
"""

import hashlib
import itertools
import os
import subprocess
import sys
import time

if os.name == "nt":
    import msvcrt
else:
    import fcntl

OLDEST, NEWEST = (3, 11), (3, 14)
ROOT = os.path.dirname(os.path.abspath(__file__))
VENV = os.path.join(ROOT, ".venv")
WINDOWS = os.name == "nt"
PYTHON = os.path.join(VENV, "Scripts", "python.exe") if WINDOWS else os.path.join(VENV, "bin", "python")
READY = os.path.join(VENV, "ready-")  # and the command: the stamp of a finished set-up
PAGE = os.path.join(ROOT, "tools", "build_page.py")
LOCKS = {"run": "requirements.txt", "test": "requirements-dev.txt"}
EXAMPLE = os.path.join(ROOT, "src", "parbuckle", "data", "cases", "quarry-outboard.toml")
REASONS = (  # what pip says, and what that means
    ("DO NOT MATCH THE HASHES", "A package is not the one that was locked. Do not install it; ask the maintainers."),
    ("CERTIFICATE_VERIFY_FAILED", "The network answers with a certificate that pip does not trust."),
    ("onnection", "The package index cannot be reached. Is there a network? pip's own settings are respected."),
    ("No matching distribution", "No ready-made package for this machine was found, or the index was not reached."),
)


def say(text):
    sys.stderr.write("dev.py: " + text + "\n")
    sys.stderr.flush()


def stop(text):
    sys.exit("dev.py: " + text)


def hand_over(command):
    """Become another program; its exit code is ours."""
    if WINDOWS:
        sys.exit(subprocess.call(command))
    os.execv(command[0], command)


def answer_of(command):
    """Ask a Python for its version and path; nothing when it does not answer (a shim that points nowhere)."""
    try:
        ask = "import sys; print('%d.%d' % sys.version_info[:2]); print(sys.executable)"
        said = subprocess.check_output(command + ["-c", ask], stderr=subprocess.STDOUT)
        return said.decode("utf-8", "replace").splitlines()
    except (OSError, subprocess.CalledProcessError):
        return []


def need_good_python():
    """Go on with a Python that the locks are made for: this one, or one found on the path."""
    if OLDEST <= sys.version_info[:2] <= NEWEST:
        return
    this = "%d.%d" % sys.version_info[:2]
    for version in ("3.13", "3.12", "3.11", "3.14"):
        for command in (["python" + version], ["py", "-" + version]):
            found = answer_of(command)
            if found[:1] == [version]:
                say("Python %s is outside 3.11 to 3.14; going on with %s." % (this, found[1]))
                hand_over([found[1], os.path.abspath(__file__)] + sys.argv[1:])
    if sys.version_info[:2] < OLDEST:
        stop("Python 3.11 or newer is needed. This is Python %s, and no newer one is on the path." % this)
    say("Python %s is newer than 3.14, the newest that was tried. Going on." % this)


def wanted(command):
    """Give what a finished set-up for the command writes into its stamp: Python, folder, digest of lock and project."""
    digest = hashlib.sha256()
    for name in (LOCKS[command], "pyproject.toml"):
        with open(os.path.join(ROOT, name), "rb") as file:
            digest.update(file.read().replace(b"\r\n", b"\n"))
    return "%d.%d %s\n%s\n" % (sys.version_info[0], sys.version_info[1], ROOT, digest.hexdigest())


def written(command):
    if not os.path.exists(READY + command):
        return ""
    with open(READY + command, encoding="utf-8") as file:
        return file.read()


def try_lock(file):
    if WINDOWS:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def wait_for_turn():
    """Hold the lock file until it is closed; the system frees it even after a crash."""
    file = open(os.path.join(ROOT, ".venv.lock"), "a+")
    for turn in itertools.count():
        try:
            try_lock(file)
            return file
        except OSError:
            if turn == 0:
                say("Another dev.py is setting up here; waiting for it.")
            time.sleep(0.5)


def make_venv():
    try:
        import ensurepip, venv  # a system may leave them out
    except ImportError:
        stop("This Python cannot make environments. On Debian and Ubuntu: apt-get install python3-venv.")
    step([getattr(sys, "_base_executable", sys.executable), "-m", "venv", "--clear", VENV], "The private environment could not be made.")


def step(command, failure):
    """Run one step of the set-up in silence; when it fails, show the end of what it said and what that means."""
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    said = process.communicate()[0].decode("utf-8", "replace")
    if process.returncode:
        sys.stderr.write("".join(line + "\n" for line in said.splitlines()[-15:]))
        stop(" ".join([failure] + [meaning for mark, meaning in REASONS if mark in said][:1]))


def set_up(command):
    """Bring .venv up to date with the command's lock; the stamp is written last."""
    if written(command) == wanted(command):
        return
    turn = wait_for_turn()
    if written(command) != wanted(command):
        if not any(written(name).split("\n")[0] == wanted(name).split("\n")[0] for name in LOCKS):
            say("Making .venv (once).")
            make_venv()
        for name in LOCKS:
            if written(name) not in ("", wanted(name)):
                os.remove(READY + name)
        say("Installing what %s lists, hashes checked." % LOCKS[command])
        pip = [PYTHON, "-m", "pip", "install", "-q", "--no-input", "--disable-pip-version-check", "--no-user"]
        step(pip + ["--no-deps", "--require-hashes", "--only-binary", ":all:", "-r", LOCKS[command]], "Installing failed.")
        step(pip + ["--no-deps", "--no-build-isolation", "--editable", "."], "parbuckle itself could not be installed.")
        for name in {command, "run"}:  # the test lock holds the other
            with open(READY + name, "w", encoding="utf-8") as file:
                file.write(wanted(name))
    turn.close()


def test(args):
    """Run the gates in turn, all of them, and say at the end which failed."""
    os.chdir(ROOT)
    pytest = [PYTHON, "-m", "pytest"]
    if args:
        hand_over(pytest + args)
    gates = (
        ("programs", [PYTHON, os.path.join("tools", "programs_for_tests.py")]),
        ("page", [PYTHON, PAGE, "check"]),
        ("guards", pytest + ["-q", "-n", "2", "tests/spec"]),
        ("ruff check", [PYTHON, "-m", "ruff", "check"]),
        ("ruff format", [PYTHON, "-m", "ruff", "format", "--check"]),
        ("mypy", [PYTHON, "-m", "mypy"]),
        ("pytest", pytest + ["-q", "-n", "2", "--ignore=tests/spec"]),
    )
    failed = [name for name, command in gates if say(name) or subprocess.call(command)]
    say("failed: " + ", ".join(failed) if failed else "all gates passed: " + ", ".join(name for name, _ in gates))
    sys.exit(1 if failed else 0)


def main():
    if len(sys.argv) < 2 or sys.argv[1] not in LOCKS:
        sys.stderr.write(__doc__)
        sys.exit(0 if sys.argv[1:2] in (["-h"], ["--help"]) else 1)
    need_good_python()
    command, args = sys.argv[1], sys.argv[2:]
    try:
        set_up(command)
    except (IOError, OSError) as error:
        stop("The set-up failed: %s." % error)
    except KeyboardInterrupt:
        stop("Stopped. The next run takes up where this one left.")
    if command == "test":
        test(args)
    if args[:1] == ["serve"] and subprocess.call([PYTHON, PAGE]):
        sys.exit(1)
    hand_over([PYTHON, "-P", "-m", "parbuckle"] + (args or ["plan", EXAMPLE, "--brief", "brief.pdf"]))


if __name__ == "__main__":
    main()
