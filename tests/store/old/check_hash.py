#!/usr/bin/env python3
"""Prints the last hash of every job of a store, reckoned from the rows by Python's own BLAKE2b and SQLite: another hand than ours."""
import hashlib
import sqlite3
import sys


def chain_hash(fields):
    out = hashlib.blake2b(digest_size=32)
    for field in fields:
        out.update(len(field).to_bytes(8, "little") + field)
    return out.hexdigest()


def main():
    store = sqlite3.connect(f"file:{sys.argv[1]}?mode=ro&immutable=1", uri=True)
    store.text_factory = bytes
    last = {}
    for job, position, accepted_at, event, line in store.execute(
        "select job, position, accepted_at, id, line from event order by place"
    ):
        previous = last.get(job, "0" * 64)
        last[job] = chain_hash([job, str(position).encode(), accepted_at, previous.encode(), event, line])
    for job, value in sorted(last.items()):
        print(job.decode(), value)


main()
