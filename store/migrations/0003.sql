-- A recipe that somebody has sent and not yet put on a menu: its words, and what was said about how they were read.
-- The last of each person in each channel; it is deleted some days later.
CREATE TABLE reading (
  community TEXT    NOT NULL,
  channel   TEXT    NOT NULL,
  user      TEXT    NOT NULL,
  at        INTEGER NOT NULL,
  source    BLOB    NOT NULL,                  -- as it was sent, without what is no recipe
  changes   TEXT    NOT NULL,                  -- JSON, a list of what was corrected; empty: nothing
  PRIMARY KEY (community, channel, user)
) STRICT, WITHOUT ROWID;

CREATE INDEX reading_at ON reading (at);
