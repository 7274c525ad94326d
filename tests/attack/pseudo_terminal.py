# SPDX-License-Identifier: MIT
"""A program in a pseudo-terminal of its own, for tests/attack."""
import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import termios
import time


class Terminal:
    def __init__(self, command, folder, environment):
        self.master, self.side = pty.openpty()
        self.output = b""
        self.resize(80, 24)
        self.modes_before = self.modes()
        self.child = subprocess.Popen(command, stdin=self.side, stdout=self.side, stderr=subprocess.DEVNULL,
                                      cwd=folder, env=environment, preexec_fn=self._own_terminal)

    def _own_terminal(self):
        for number in signal.valid_signals() - {signal.SIGKILL, signal.SIGSTOP}:
            try:
                signal.signal(number, signal.SIG_DFL)  # whoever started this may ignore some
            except (OSError, ValueError):
                pass
        os.setsid()
        fcntl.ioctl(0, termios.TIOCSCTTY, 0)

    def modes(self):
        return termios.tcgetattr(self.side)

    def resize(self, width, height):
        fcntl.ioctl(self.side, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))

    def _take(self, seconds):
        """Reads what comes within that time; false if nothing did."""
        if not select.select([self.master], [], [], seconds)[0]:
            return False
        try:
            self.output += os.read(self.master, 65536)
        except OSError:
            return False
        self.output = self.output[-200000:]
        return True

    def wait_for(self, text, patience):
        until = time.monotonic() + patience
        while text not in self.output and time.monotonic() < until and not self.over():
            self._take(0.1)

    def quiet(self, seconds):
        """Waits until nothing came for so long."""
        until = time.monotonic() + 30
        while self._take(seconds) and time.monotonic() < until:
            pass

    def press(self, keys):
        """Types, and reads meanwhile, as a terminal does."""
        os.set_blocking(self.master, False)
        until = time.monotonic() + 60
        while keys and not self.over() and time.monotonic() < until:
            try:
                keys = keys[os.write(self.master, keys[:1024]):]
            except BlockingIOError:
                self._take(0.05)
            while self._take(0):
                pass
        os.set_blocking(self.master, True)

    def signal(self, number):
        self.child.send_signal(number)

    def over(self):
        return self.child.poll() is not None

    def end(self, patience):
        """Waits for the end; the status as of subprocess, or None where it hangs and has to be killed."""
        until = time.monotonic() + patience
        while not self.over() and time.monotonic() < until:
            self._take(0.05)
        if not self.over():
            self.child.send_signal(signal.SIGKILL)
            self.child.wait()
            return None
        while self._take(0):
            pass
        return self.child.returncode

    def __del__(self):
        for file in (self.master, self.side):
            try:
                os.close(file)
            except OSError:
                pass
