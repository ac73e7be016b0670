"""Measures the real window on a display of its own, for bench.sh.

Usage: window.py PROGRAM JOB DEMONSTRATION

Prints one line in the form of a Go benchmark. Keys and pointer are sent by the X
server's own test extension, and the time of a picture is when its pixels are on
the screen, looked at some hundred times a second.
"""
import collections
import ctypes
import os
import signal
import statistics
import subprocess
import sys
import tempfile
import time

WIDTH, HEIGHT = 1400, 900

# Where things stand in a window of that size: left, top, right, bottom.
FIELD, NUMBERS, CHART = (390, 205, 482, 230), (855, 205, 1225, 272), (640, 400, 1000, 780)
MOVED = (490, 300, 990, 620)  # the chart of a demonstration
SLIDER = (514, 1330, 268)  # its ends, and how far down it lies
SWEEP = 1.4  # seconds from end to end, in which the 36 positions of that slider ask for 25 pictures a second


class Image(ctypes.Structure):
    _fields_ = [("width", ctypes.c_int), ("height", ctypes.c_int), ("xoffset", ctypes.c_int), ("format", ctypes.c_int),
                ("data", ctypes.c_void_p), ("byte_order", ctypes.c_int), ("bitmap_unit", ctypes.c_int),
                ("bitmap_bit_order", ctypes.c_int), ("bitmap_pad", ctypes.c_int), ("depth", ctypes.c_int),
                ("bytes_per_line", ctypes.c_int)]


class Screen:
    """An X server without a screen, and what is done to it."""

    def __init__(self):
        read, write = os.pipe()
        self.server = subprocess.Popen(["Xvfb", "-displayfd", str(write), "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-nolisten", "tcp"],
                                       pass_fds=(write,), stderr=subprocess.DEVNULL)
        os.close(write)
        self.name = ":" + os.read(read, 20).decode().strip()
        self.x, self.test = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
        x = self.x
        for f, result, arguments in [
            (x.XOpenDisplay, ctypes.c_void_p, [ctypes.c_char_p]),
            (x.XDefaultRootWindow, ctypes.c_ulong, [ctypes.c_void_p]),
            (x.XGetImage, ctypes.POINTER(Image), [ctypes.c_void_p, ctypes.c_ulong] + 2 * [ctypes.c_int] + 2 * [ctypes.c_uint] + [ctypes.c_ulong, ctypes.c_int]),
            (x.XDestroyImage, ctypes.c_int, [ctypes.POINTER(Image)]),
            (x.XStringToKeysym, ctypes.c_ulong, [ctypes.c_char_p]),
            (x.XKeysymToKeycode, ctypes.c_ubyte, [ctypes.c_void_p, ctypes.c_ulong]),
            (x.XFlush, ctypes.c_int, [ctypes.c_void_p]),
            (self.test.XTestFakeKeyEvent, ctypes.c_int, [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong]),
            (self.test.XTestFakeMotionEvent, ctypes.c_int, [ctypes.c_void_p] + 3 * [ctypes.c_int] + [ctypes.c_ulong]),
            (self.test.XTestFakeButtonEvent, ctypes.c_int, [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong]),
        ]:
            f.restype, f.argtypes = result, arguments
        self.display = x.XOpenDisplay(self.name.encode())
        self.root = x.XDefaultRootWindow(self.display)

    def pixels(self, box):
        left, top, right, bottom = box
        image = self.x.XGetImage(self.display, self.root, left, top, right - left, bottom - top, 0xFFFFFFFF, 2)
        data = ctypes.string_at(image.contents.data, image.contents.bytes_per_line * image.contents.height)
        self.x.XDestroyImage(image)
        return data

    def key(self, name):
        code = self.x.XKeysymToKeycode(self.display, self.x.XStringToKeysym(name.encode()))
        for down in (1, 0):
            self.test.XTestFakeKeyEvent(self.display, code, down, 0)
        self.x.XFlush(self.display)

    def point(self, x, y):
        self.test.XTestFakeMotionEvent(self.display, -1, x, y, 0)
        self.x.XFlush(self.display)

    def button(self, down):
        self.test.XTestFakeButtonEvent(self.display, 1, down, 0)
        self.x.XFlush(self.display)


class Window:
    """The program, with its window on the screen."""

    def __init__(self, screen, program, file):
        self.screen = screen
        home = tempfile.mkdtemp()
        environment = dict(os.environ, DISPLAY=screen.name, WAYLAND_DISPLAY="", HOME=home, XDG_CONFIG_HOME=home, XDG_CACHE_HOME=home,
                           LANG="C.UTF-8", FYNE_SCALE="1", LIBGL_ALWAYS_SOFTWARE="1")
        began = time.monotonic()
        self.process = subprocess.Popen([program, "open", file], env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.drawn = self.until(lambda: len(set(screen.pixels((0, 200, 1300, 204)))) > 8, 60) - began
        self.rest()
        time.sleep(3)
        self.started = self.busy()
        ids = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(self.process.pid)], env=environment, capture_output=True, text=True)
        subprocess.run(["xdotool", "windowsize", ids.stdout.split()[0], str(WIDTH), str(HEIGHT)], env=environment, check=True)
        self.rest()

    def busy(self):
        """Processor time so far, in seconds."""
        fields = open(f"/proc/{self.process.pid}/stat").read().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def resident(self):
        for line in open(f"/proc/{self.process.pid}/status"):
            if line.startswith("VmRSS"):
                return int(line.split()[1]) * 1024

    def rest(self, still=0.8, most=60):
        """Waits until the program does next to nothing."""
        last, since, end = self.busy(), time.monotonic(), time.monotonic() + most
        while time.monotonic() - since < still and time.monotonic() < end:
            time.sleep(0.1)
            now = self.busy()
            if now - last > 0.015:
                since = time.monotonic()
            last = now

    def until(self, ready, most):
        end = time.monotonic() + most
        while not ready():
            if self.process.poll() is not None:
                sys.exit("the program ended")
            if time.monotonic() > end:
                sys.exit("the window does not answer")
            time.sleep(0.003)
        return time.monotonic()

    def edit(self, key, boxes):
        """Seconds from a key press to a change in each box, and the processor time of it all."""
        self.rest()
        before, busy = [self.screen.pixels(b) for b in boxes], self.busy()
        began = time.monotonic()
        self.screen.key(key)
        took = [None] * len(boxes)

        def changed():
            for i, b in enumerate(boxes):
                if took[i] is None and self.screen.pixels(b) != before[i]:
                    took[i] = time.monotonic() - began
            return None not in took

        self.until(changed, 30)
        self.rest(1.2)
        return took + [self.busy() - busy]

    def end(self):
        self.process.send_signal(signal.SIGTERM)
        self.process.wait()


def columns(rows):
    return [statistics.median(c) for c in zip(*rows)]


def measure(program, job, demonstration):
    figures = collections.OrderedDict()
    screen = Screen()
    try:
        w = Window(screen, program, job)
        figures["drawn-ns"], figures["quiet-ns"] = w.drawn * 1e9, w.started * 1e9
        # The design airflow, the second field of the first place, with the last
        # digit going to and fro; the figures over all places; the chart.
        screen.point(5, 5)
        screen.key("Tab")
        screen.key("End")
        w.rest()
        rows = []
        for i in range(22):
            screen.key("BackSpace")
            rows.append(w.edit(str(5 * (i % 2 + 1) % 10), [FIELD, NUMBERS, CHART]))
        figures["letter-ns"], figures["number-ns"], figures["chart-ns"], figures["edit-ns"] = [1e9 * v for v in columns(rows[2:])]
        before = w.busy()
        time.sleep(5)
        figures["rest-permille"] = 200 * (w.busy() - before)
        before = w.busy()
        for i in range(100):
            screen.point(650 + 4 * i, 400 + 2 * i)
            time.sleep(0.02)
        figures["pointer-ns"] = (w.busy() - before) / 100 * 1e9
        figures["resident-B"] = w.resident()
        w.end()
        figures.update(dragged(screen, program, demonstration))
    finally:
        screen.server.terminate()
    print("BenchmarkWindow 1 " + " ".join(f"{v:.0f} {k}" for k, v in figures.items()))


def dragged(screen, program, demonstration):
    """Pictures of the chart a second, and their processor time, while the slider of
    a demonstration is held and moved."""
    w = Window(screen, program, demonstration)
    screen.key("1")  # a prediction
    time.sleep(0.5)
    screen.key("Next")
    w.rest()
    left, right, y = SLIDER
    screen.point(left, y)
    time.sleep(0.3)
    screen.button(1)
    pictures, busy, began = 0, w.busy(), time.monotonic()
    last, at = screen.pixels(MOVED), 0
    while (passed := time.monotonic() - began) < SWEEP:
        to = left + int((right - left) * passed / SWEEP)
        if to != at:
            screen.point(to, y)
            at = to
        if (now := screen.pixels(MOVED)) != last:
            pictures, last = pictures + 1, now
        time.sleep(0.004)
    screen.button(0)
    figures = {"slider-fps": pictures / passed, "slider-permille": 1000 * (w.busy() - busy) / passed}
    w.end()
    return figures


if __name__ == "__main__":
    measure(*sys.argv[1:])
