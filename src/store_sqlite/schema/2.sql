-- Version 2: what was judged, and rows for listing and finding. All of it can be made again from the events.
create table judgement (
  number   integer primary key,
  job      text not null,
  program  text not null,
  events   integer not null,
  log_hash text not null,
  verdicts text not null,
  hash     text not null,
  unique (job, program)
) strict;

-- found: job, name, engine and serial in small letters, with the unit separator (31) between them. seal: digest of the whole row with
-- its people and parts.
create table job_row (
  job           text primary key,
  found         text not null,
  first_made_at text not null,
  last_made_at  text not null,
  name          text not null,
  engine        text not null,
  serial        text not null,
  events        integer not null,
  readings      integer not null,
  word          text not null,
  seal          text not null
) strict, without rowid;
-- All that a search through every job looks at, close together.
create index job_scan on job_row (job, found, first_made_at, last_made_at);

create table job_person (
  job    text not null,
  person text not null,
  primary key (job, person)
) strict, without rowid;
create index job_of_person on job_person (person, job);

create table job_part (
  job   text not null,
  nth   integer not null,
  part  text not null,
  kind  text not null,
  state text not null,
  primary key (job, nth)
) strict, without rowid;

-- Each job once for every part, kind and state that can be asked for: named is the id of a part or a kind, or '' for any; state is a
-- state, or '' for any. What is asked for is one stretch of this table, in the order of jobs.
create table job_with (
  named text not null,
  state text not null,
  job   text not null,
  primary key (named, state, job)
) strict, without rowid;
