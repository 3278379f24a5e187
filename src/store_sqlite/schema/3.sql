-- Version 3: devices that may reach the server, and lines of gauges that nobody has used yet. Neither belongs to a job.
-- seal: digest of the row.
create table device (
  id        text primary key,
  name      text not null,
  key_hash  text not null,
  paired_at text not null,
  last_seen text not null,
  revoked   integer not null check (revoked in (0, 1)),
  seal      text not null
) strict;
create trigger device_stays before delete on device begin select raise(abort, 'devices are never taken away'); end;
create trigger device_stays_revoked before update on device when old.revoked = 1 and new.revoked = 0
  begin select raise(abort, 'a revoked device stays revoked'); end;

-- A number is never given twice: who puts a line aside late must not meet another one.
create table gauge_line (
  number      integer primary key autoincrement,
  port        text not null,
  received_at text not null,
  seal        text not null,
  bytes       blob not null
) strict;
