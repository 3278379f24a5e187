"""A pseudo-terminal as a gauge: says its path, then sends each line it is given."""
import os
import pty
import sys
import tty

far, near = pty.openpty()
tty.setraw(near)
print(os.ttyname(near), flush=True)
for line in sys.stdin:
    os.write(far, line.strip().encode() + b"\r\n")
