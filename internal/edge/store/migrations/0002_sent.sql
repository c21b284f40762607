-- How a step was sent: under which key, and what its sender was told besides the step
-- itself (made is a JSON list of ids, or nothing). Beside the step and not in its row,
-- where new columns would lie behind the document; and most steps of the command line
-- have none.
CREATE TABLE sent (
	job      TEXT NOT NULL,
	revision INTEGER NOT NULL,
	key      TEXT NOT NULL CHECK (key <> ''),
	made     TEXT NOT NULL,
	merged   INTEGER NOT NULL CHECK (merged IN (0, 1)),
	PRIMARY KEY (job, revision),
	FOREIGN KEY (job, revision) REFERENCES step (job, revision)
) STRICT;
