-- One word an idea: fields, words and keys of what is kept are spelt as the program spells them now. A field's name with
-- its quotes and colon stands in no JSON text but as a field, since a quote within a text is escaped; so does a field with
-- its value. Each rule is kept to the kinds that have the field. What SQL cannot say is in respell.go, which also gives the
-- journal's plans their digests anew.

CREATE TEMP TABLE respelt (kinds TEXT NOT NULL, old TEXT NOT NULL, new TEXT NOT NULL);
INSERT INTO respelt VALUES
  ('dish',              '"ware":',             '"plate":'),
  ('dish',              '"inHouse":',          '"have":'),
  ('dish',              '"growth":"batch"',    '"growth":"proportion"'),
  ('dish',              '"growth":',           '"grows":'),
  ('dish',              '"chill":',            '"cool":'),
  ('dish',              '"vessel":',           '"madeOf":'),
  ('dish',              '"body":',             '"consistency":'),
  ('dish',              '"onCall":',           '"whenCalled":'),
  ('dish',              '"min":',              '"least":'),
  ('dish',              '"max":',              '"longest":'),
  ('dish',              '"floor":',            '"worthUntil":'),
  ('dish chore',        '"attention":"rest"',  '"attention":"unattended"'),
  ('dish chore placed', '"what":"source"',     '"what":"hot place"'),
  ('chore',             '"kind":"room"',       '"kind":"clear refrigerator"'),
  ('chore work placed', '"task":"chore/',      '"task":"'),
  ('person',            '"role":"looker"',     '"role":"onlooker"'),
  ('plan',              '"name":"room","value":', '"name":"spare","value":'),
  ('plan',              '"do":"kitchen set ',  '"do":"kitchen fittings '),
  ('plan',              '"do":"kitchen cold ', '"do":"kitchen space '),
  ('good bought',       '"thing":',            '"item":'),
  ('good',              '"house":',            '"have":'),
  ('good',              '"sold":',             '"packs":');

-- Rules are taken one after another, in their order: each row of nth is a text with the first n of them.
CREATE TEMP TABLE doc AS
  WITH RECURSIVE
    text (kind, was) AS (
      SELECT kind, doc FROM piece
      UNION SELECT kind, before_doc FROM touched WHERE before_doc IS NOT NULL
      UNION SELECT kind, after_doc FROM touched WHERE after_doc IS NOT NULL),
    nth (kind, was, n, now) AS (
      SELECT kind, was, 0, was FROM text
      UNION ALL
      SELECT nth.kind, nth.was, nth.n + 1,
        CASE WHEN ' ' || kinds || ' ' LIKE '% ' || nth.kind || ' %' THEN replace(nth.now, old, new) ELSE nth.now END
      FROM nth JOIN respelt ON respelt.rowid = nth.n + 1)
  SELECT kind, was, now FROM nth WHERE n = (SELECT max(rowid) FROM respelt) AND now <> was;
CREATE INDEX temp.doc_was ON doc (kind, was);

UPDATE piece SET doc = (SELECT now FROM doc WHERE doc.kind = piece.kind AND was = piece.doc)
  WHERE EXISTS (SELECT 1 FROM doc WHERE doc.kind = piece.kind AND was = piece.doc);
UPDATE touched SET before_doc = (SELECT now FROM doc WHERE doc.kind = touched.kind AND was = before_doc)
  WHERE EXISTS (SELECT 1 FROM doc WHERE doc.kind = touched.kind AND was = before_doc);
UPDATE touched SET after_doc = (SELECT now FROM doc WHERE doc.kind = touched.kind AND was = after_doc)
  WHERE EXISTS (SELECT 1 FROM doc WHERE doc.kind = touched.kind AND was = after_doc);
DROP TABLE doc;
DROP TABLE respelt;

-- Keys: a task that is no step of a dish goes by its own key.
UPDATE piece SET key = substr(key, 7) WHERE kind IN ('work', 'placed') AND key LIKE 'chore/%';
UPDATE touched SET key = substr(key, 7) WHERE kind IN ('work', 'placed') AND key LIKE 'chore/%';
UPDATE piece SET key = 'roomTemperatureC' WHERE kind = 'setting' AND key = 'roomC';
UPDATE touched SET key = 'roomTemperatureC' WHERE kind = 'setting' AND key = 'roomC';
UPDATE piece SET key = 'hotPlaces' WHERE kind = 'kitchen' AND key = 'sources';
UPDATE touched SET key = 'hotPlaces' WHERE kind = 'kitchen' AND key = 'sources';

-- Reminders: their keys hold that of their task, between slashes.
UPDATE reminder SET key = replace(key, '/' || task || '/', '/' || substr(task, 7) || '/'), task = substr(task, 7)
  WHERE task LIKE 'chore/%';
UPDATE reminder SET buttons = replace(replace(replace(replace(buttons,
  ' task:chore/', ' task:'), '"do":"task more ', '"do":"task longer '), '"do":"task hand ', '"do":"task pass '),
  '"label":"Why now?"', '"label":"Why?"');
UPDATE reminder SET text = replace(replace(text,
  char(10) || 'There is room until ', char(10) || 'It can wait until '),
  char(10) || 'There is no room: ', char(10) || 'It cannot wait: ')
  WHERE state IN ('waiting', 'sending');

-- Of a recipe that was read, and what was said about that.
UPDATE reading SET changes = replace(changes, '"attention":"rest"', '"attention":"unattended"');
