-- 0x64726f70, "drop": tells this file from other programs' databases.
PRAGMA application_id = 1685221232;

-- Times are microseconds since 1970, UTC.
CREATE TABLE job (
	id         TEXT PRIMARY KEY,
	title      TEXT NOT NULL,
	created    INTEGER NOT NULL,
	changed    INTEGER NOT NULL,
	revision   INTEGER NOT NULL CHECK (revision >= 0),
	kept       INTEGER NOT NULL, -- revision that title and thumb are of
	origin     TEXT NOT NULL,
	origin_sum TEXT NOT NULL,
	removed    INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1))
) STRICT;

-- A snapshot is the whole document at a revision.
CREATE TABLE snapshot (
	job      TEXT NOT NULL REFERENCES job (id),
	revision INTEGER NOT NULL,
	doc      BLOB NOT NULL,
	PRIMARY KEY (job, revision)
) STRICT;

-- The document comes last, so that the history can be read without its pages.
CREATE TABLE step (
	job      TEXT NOT NULL REFERENCES job (id),
	revision INTEGER NOT NULL,
	at       INTEGER NOT NULL,
	by       TEXT NOT NULL,
	plan     TEXT NOT NULL,
	kind     TEXT NOT NULL,
	of       INTEGER NOT NULL,
	words    TEXT NOT NULL,
	edit     BLOB,
	inverse  BLOB,
	doc      BLOB,
	PRIMARY KEY (job, revision)
) STRICT;

-- Beside the job and not in its row, which every step writes anew.
CREATE TABLE thumb (
	job  TEXT PRIMARY KEY REFERENCES job (id),
	data BLOB NOT NULL
) STRICT;

CREATE TABLE picture (
	job  TEXT NOT NULL REFERENCES job (id),
	name TEXT NOT NULL,
	kind TEXT NOT NULL,
	data BLOB NOT NULL,
	PRIMARY KEY (job, name)
) STRICT;
