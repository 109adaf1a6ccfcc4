-- Instants are milliseconds since 1970-01-01 UTC. Every row carries its community, and the composite
-- foreign keys make sure that it is its party's.

CREATE TABLE party (
  id        INTEGER PRIMARY KEY AUTOINCREMENT, -- never given to another party
  community TEXT    NOT NULL,
  name      TEXT    NOT NULL,
  folded    TEXT    NOT NULL,                  -- the name as two spellings of it are compared
  zone      TEXT    NOT NULL,
  arrival   INTEGER NOT NULL,
  covers    INTEGER NOT NULL,
  channel   TEXT    NOT NULL,
  revision  INTEGER NOT NULL,                  -- grows by one a change
  shaped    INTEGER NOT NULL,                  -- the revision in which anything but work and plan last changed
  removed   INTEGER,                           -- when it was removed; it is deleted some time later
  UNIQUE (community, id)
) STRICT;

CREATE UNIQUE INDEX party_name ON party (community, folded) WHERE removed IS NULL;

-- A party is stored in pieces, so that a change is the set of pieces that it touched.
CREATE TABLE piece (
  community TEXT    NOT NULL,
  party     INTEGER NOT NULL,
  kind      TEXT    NOT NULL,
  key       TEXT    NOT NULL,
  ord       INTEGER NOT NULL,                  -- its place among those of its kind
  doc       TEXT    NOT NULL,                  -- JSON
  PRIMARY KEY (community, party, kind, key),
  FOREIGN KEY (community, party) REFERENCES party (community, id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE entry (
  community  TEXT    NOT NULL,
  party      INTEGER NOT NULL,
  revision   INTEGER NOT NULL,                 -- that the change made
  kind       TEXT    NOT NULL CHECK (kind IN ('create', 'change', 'undo', 'redo', 'remove', 'recover')),
  actor      TEXT    NOT NULL,
  actor_name TEXT    NOT NULL,
  at         INTEGER NOT NULL,
  what       TEXT    NOT NULL,                 -- one sentence
  of         INTEGER,                          -- the revision that an undo or redo turns back
  back       INTEGER,                          -- the revision that turned this one back
  plan       TEXT    NOT NULL,                 -- digest of the plan after the change
  PRIMARY KEY (community, party, revision),
  FOREIGN KEY (community, party) REFERENCES party (community, id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE touched (
  community  TEXT    NOT NULL,
  party      INTEGER NOT NULL,
  revision   INTEGER NOT NULL,
  kind       TEXT    NOT NULL,
  key        TEXT    NOT NULL,
  before_ord INTEGER,                          -- null: the piece was not there
  before_doc TEXT,
  after_ord  INTEGER,                          -- null: the piece is no longer there
  after_doc  TEXT,
  PRIMARY KEY (community, party, revision, kind, key),
  FOREIGN KEY (community, party, revision) REFERENCES entry (community, party, revision) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE INDEX touched_piece ON touched (community, party, kind, key, revision);

-- Which party a channel, or one person in it, is talking about.
CREATE TABLE focus (
  community TEXT    NOT NULL,
  channel   TEXT    NOT NULL,
  user      TEXT    NOT NULL,                  -- empty: the whole channel
  party     INTEGER NOT NULL,
  PRIMARY KEY (community, channel, user),
  FOREIGN KEY (community, party) REFERENCES party (community, id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE reminder (
  id        INTEGER PRIMARY KEY AUTOINCREMENT,
  community TEXT    NOT NULL,
  party     INTEGER NOT NULL,
  key       TEXT    NOT NULL,                  -- stays the same when the plan is made anew
  round     INTEGER NOT NULL,                  -- how many times it was armed again after it was sent
  due       INTEGER NOT NULL,
  at        INTEGER NOT NULL,                  -- the instant that it speaks of
  until     INTEGER NOT NULL,                  -- after this it is stale
  person    TEXT    NOT NULL,
  kind      TEXT    NOT NULL,
  task      TEXT    NOT NULL,
  text      TEXT    NOT NULL,
  buttons   TEXT    NOT NULL,                  -- JSON
  state     TEXT    NOT NULL CHECK (state IN ('waiting', 'sending', 'sent', 'dropped')),
  attempt   INTEGER NOT NULL,
  unsure    INTEGER NOT NULL,                  -- 1: an attempt began and nobody knows how it ended
  batch     INTEGER NOT NULL,                  -- rows that go out as one message share it; 0: alone
  next      INTEGER NOT NULL,                  -- when to look at it next, while waiting or sending
  snoozed   INTEGER,                           -- not before this
  sent      INTEGER,
  told      INTEGER,                           -- the instant that it spoke of when it was last sent
  UNIQUE (community, party, key),
  FOREIGN KEY (community, party) REFERENCES party (community, id) ON DELETE CASCADE
) STRICT;

CREATE INDEX reminder_next ON reminder (next) WHERE state IN ('waiting', 'sending');
