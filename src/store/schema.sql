-- Revisions of one bridge file. Each step lifts a file from the version above it (user_version) by
-- one; steps are never changed once released, only added. Read by src/store/store.c.
-- step 1
CREATE TABLE revision (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    note TEXT NOT NULL,
    mark TEXT NOT NULL,
    content TEXT NOT NULL
) STRICT;
CREATE TRIGGER revision_stays BEFORE UPDATE ON revision
BEGIN
    SELECT RAISE(ABORT, 'a revision is never changed');
END;
