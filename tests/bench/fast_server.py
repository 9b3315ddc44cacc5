"""A Modbus TCP server that is never the limit: in C, all requests that have come answered in one go.

Register n holds n. Where there is no C compiler the benchmarks that need it are skipped.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

SOURCE = r"""
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>
static void *serve(void *given) {
    int line = (int) (long) given, on = 1, have = 0;
    static __thread unsigned char in[65536], out[65536];
    setsockopt(line, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
    for (;;) {
        int got = recv(line, in + have, sizeof in - have, 0), used = 0, said = 0;
        if (got <= 0) break;
        have += got;
        while (have - used >= 12) {
            unsigned char *asked = in + used, *answer = out + said;
            int length = 6 + (asked[4] << 8 | asked[5]), first = asked[8] << 8 | asked[9];
            int count = asked[10] << 8 | asked[11], size = 2 * count;
            if (have - used < length) break;
            if (count > 125 || said + 9 + size > (int) sizeof out) { close(line); return 0; }
            memcpy(answer, asked, 8);
            answer[4] = (3 + size) >> 8, answer[5] = 3 + size, answer[8] = size;
            for (int i = 0; i < count; i++) answer[9 + 2 * i] = (first + i) >> 8, answer[10 + 2 * i] = first + i;
            said += 9 + size, used += length;
        }
        memmove(in, in + used, have -= used);
        if (said && send(line, out, said, MSG_NOSIGNAL) != said) break;
    }
    close(line);
    return 0;
}
int main(void) {
    int listener = socket(AF_INET, SOCK_STREAM, 0);
    struct sockaddr_in name = { .sin_family = AF_INET, .sin_addr.s_addr = htonl(INADDR_LOOPBACK) };
    socklen_t size = sizeof name;
    if (bind(listener, (struct sockaddr *) &name, size) || listen(listener, 50)) return 1;
    getsockname(listener, (struct sockaddr *) &name, &size);
    printf("%d\n", ntohs(name.sin_port));
    fflush(stdout);
    for (;;) {
        pthread_t thread;
        long line = accept(listener, 0, 0);
        if (line < 0 || pthread_create(&thread, 0, serve, (void *) line)) return 1;
        pthread_detach(thread);
    }
}
"""


def compiled(folder: Path, name: str, source: str, *flags: str) -> str:
    """The path of a program made of C `source`; skips the test where that cannot be made."""
    if shutil.which("gcc") is None:
        pytest.skip("there is no gcc")
    written = folder / f"{name}.c"
    written.write_text(source)
    made = subprocess.run(
        ["gcc", "-O2", "-o", str(folder / name), str(written), *flags], capture_output=True, text=True
    )
    if made.returncode:
        pytest.skip(f"{name}.c does not compile here: {made.stderr[:200]}")
    return str(folder / name)


@contextmanager
def fast_server(folder: Path) -> Iterator[int]:
    """The port of one that runs in a process of its own."""
    process = subprocess.Popen([compiled(folder, "server", SOURCE, "-pthread")], stdout=subprocess.PIPE)
    try:
        assert process.stdout is not None
        yield int(process.stdout.readline())
    finally:
        process.kill()
        process.communicate()
