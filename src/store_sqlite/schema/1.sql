-- Version 1: events and files. Nothing of either is ever changed or taken away.
create table job (
  number integer primary key,
  id     text not null unique
) strict;

-- place: number of the job times 2^32, plus the position. The events of a job lie together in their order, and each row holds all that
-- its hash is made of, so that it can be verified alone.
create table event (
  place       integer primary key,
  job         text not null,
  position    integer not null check (position > 0 and place & 4294967295 = position),
  id          text not null,
  accepted_at text not null,
  previous    blob not null check (length(previous) = 32),
  hash        blob not null check (length(hash) = 32),
  line        text not null
) strict;
create unique index event_id on event (job, id);

-- seal: digest of hash, type and thumbnail; bytes are covered by hash.
create table file (
  number    integer primary key,
  hash      text not null unique,
  type      text not null,
  size      integer not null,
  seal      text not null,
  thumbnail blob not null,
  bytes     blob not null
) strict;

create trigger job_keeps before update on job begin select raise(abort, 'jobs are never changed'); end;
create trigger job_stays before delete on job begin select raise(abort, 'jobs are never taken away'); end;
create trigger event_keeps before update on event begin select raise(abort, 'events are never changed'); end;
create trigger event_stays before delete on event begin select raise(abort, 'events are never taken away'); end;
create trigger file_keeps before update on file begin select raise(abort, 'files are never changed'); end;
create trigger file_stays before delete on file begin select raise(abort, 'files are never taken away'); end;
-- "insert or replace" takes a row away without asking the triggers for delete.
create trigger job_once before insert on job
  when exists (select 1 from job where number = new.number) or exists (select 1 from job where id = new.id)
  begin select raise(abort, 'jobs are never replaced'); end;
create trigger event_once before insert on event
  when exists (select 1 from event where place = new.place) or exists (select 1 from event where job = new.job and id = new.id)
  begin select raise(abort, 'events are never replaced'); end;
create trigger file_once before insert on file
  when exists (select 1 from file where number = new.number) or exists (select 1 from file where hash = new.hash)
  begin select raise(abort, 'files are never replaced'); end;
