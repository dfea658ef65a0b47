-- The log of a jacking job. Each step lifts a file from the version above it (user_version) by one;
-- steps are never changed once released, only added. Read by src/store/log.c.
-- step 1
CREATE TABLE record (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    id TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    at TEXT NOT NULL,
    body TEXT NOT NULL,
    before BLOB NOT NULL CHECK (length(before) = 32),
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32)
) STRICT;
CREATE TRIGGER record_stays BEFORE UPDATE ON record
BEGIN
    SELECT RAISE(ABORT, 'a record is never changed');
END;
CREATE TRIGGER record_is_kept BEFORE DELETE ON record
BEGIN
    SELECT RAISE(ABORT, 'a record is never taken out');
END;
-- INSERT OR REPLACE would take a record out without asking the trigger above.
CREATE TRIGGER record_is_new BEFORE INSERT ON record
WHEN EXISTS (SELECT 1 FROM record WHERE number = NEW.number OR id = NEW.id OR hash = NEW.hash)
BEGIN
    SELECT RAISE(ABORT, 'a record is never replaced');
END;
CREATE TRIGGER record_follows BEFORE INSERT ON record
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM record)
    OR NEW.before IS NOT coalesce((SELECT hash FROM record ORDER BY number DESC LIMIT 1), zeroblob(32))
BEGIN
    SELECT RAISE(ABORT, 'a record follows the last one');
END;
