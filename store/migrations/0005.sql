-- Messages that ring nowhere, and those that are kept true where they stand.
ALTER TABLE reminder ADD COLUMN silent INTEGER NOT NULL DEFAULT 0; -- 1: it makes no sound
ALTER TABLE reminder ADD COLUMN posted TEXT NOT NULL DEFAULT '';   -- what the face calls the message that was sent
