"""The filter of system calls that a systemd unit asks for, put on this process without systemd.

``libseccomp`` makes the filter, as it does for systemd; which calls a group holds was read from it.
"""

import ctypes
import errno
from collections.abc import Iterator
from pathlib import Path

DEPLOY = Path(__file__).resolve().parents[1]
UNIT = DEPLOY / "yardbell.service"

_ALLOW, _KILL_PROCESS, _ERRNO = 0x7FFF0000, 0x80000000, 0x00050000
"""Actions, as ``seccomp.h`` of libseccomp numbers them."""

_ALL_THREADS = 4
"""The attribute SCMP_FLTATR_CTL_TSYNC."""


def confine(unit: str) -> None:
    """Let this process and all that it starts make no other calls than a unit's text allows.

    Raises:
        OSError: the kernel or libseccomp refused the filter.
    """
    library = ctypes.CDLL("libseccomp.so.2")
    library.seccomp_init.restype = ctypes.c_void_p
    made = ctypes.c_void_p(library.seccomp_init(ctypes.c_uint32(_otherwise(unit))))
    for name in sorted(allowed(unit)):
        number = library.seccomp_syscall_resolve_name(name.encode())
        # A call of another processor's has a number below zero.
        if number >= 0:
            _check(library.seccomp_rule_add(made, ctypes.c_uint32(_ALLOW), number, 0))
    _check(library.seccomp_load(made))


def without_disk() -> None:
    """Let this process write, but fail whenever it asks that what it wrote be on the disk.

    All threads are bound by it, those that are there already too.

    Raises:
        OSError: the kernel or libseccomp refused the filter.
    """
    library = ctypes.CDLL("libseccomp.so.2")
    library.seccomp_init.restype = ctypes.c_void_p
    made = ctypes.c_void_p(library.seccomp_init(ctypes.c_uint32(_ALLOW)))
    _check(library.seccomp_attr_set(made, _ALL_THREADS, 1))
    for name in (b"fsync", b"fdatasync"):
        number, action = library.seccomp_syscall_resolve_name(name), _ERRNO | errno.EIO
        _check(library.seccomp_rule_add(made, ctypes.c_uint32(action), number, 0))
    _check(library.seccomp_load(made))


def allowed(unit: str) -> set[str]:
    """Name the calls that a unit's text allows: a list, less what stands behind a ``~``."""
    groups, calls = groups_of_calls(), set(groups_of_calls()["@default"])
    for written in _values(unit, "SystemCallFilter"):
        named = [groups.get(name, {name}) for name in written.removeprefix("~").split()]
        together = set().union(*named)
        calls = calls - together if written.startswith("~") else calls | together
    return calls


def groups_of_calls() -> dict[str, set[str]]:
    """Read which calls each group of systemd's holds."""
    groups: dict[str, set[str]] = {}
    for line in (DEPLOY / "standins" / "system_call_groups.txt").read_text().splitlines():
        if line.startswith("@"):
            group = groups[line] = set()
        elif not line.startswith("#"):
            group.update(line.split())
    return groups


def _otherwise(unit: str) -> int:
    """What any other call is answered with; without a word on it, the process is killed."""
    named = list(_values(unit, "SystemCallErrorNumber"))
    return _ERRNO | int(getattr(errno, named[-1])) if named else _KILL_PROCESS


def _values(unit: str, name: str) -> Iterator[str]:
    for line in unit.splitlines():
        key, sign, value = line.partition("=")
        if sign and key == name:
            yield value


def _check(answer: int) -> None:
    if answer < 0:
        raise OSError(-answer, "libseccomp refused the filter")
