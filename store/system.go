package store

import (
	"context"
	"database/sql"
	"time"
)

// The system's own statements, which ask for no community or for any, by a Scope. There are no others.
const (
	systemDue = `SELECT r.id, round, r.community, party, key, due, at, until, person, kind, task, text, buttons, state,
			attempt, unsure, batch, snoozed, sent, told, silent, posted
		FROM reminder r WHERE (?1 = '' OR community = ?1) AND (?2 = '' OR community <> ?2)
			AND (?4 <= 1 OR CASE WHEN community GLOB '*[^0-9]*' THEN 0 ELSE (CAST(community AS INTEGER) >> 22) % ?4 END = ?3)
				AND state IN ('waiting', 'sending') AND next <= ?5 ORDER BY due, id LIMIT ?6`
	systemNextDue = `SELECT min(next) FROM reminder WHERE (?1 = '' OR community = ?1) AND (?2 = '' OR community <> ?2)
			AND (?4 <= 1 OR CASE WHEN community GLOB '*[^0-9]*' THEN 0 ELSE (CAST(community AS INTEGER) >> 22) % ?4 END = ?3)
				AND state IN ('waiting', 'sending')`
	systemMarkSending = `UPDATE reminder SET state = 'sending', attempt = attempt + 1, unsure = 1, batch = ?, next = ?
		WHERE id = ? AND round = ? AND attempt = ? AND state = ? AND due = ?`
	systemMarkSent = `UPDATE reminder SET state = 'sent', unsure = 0, sent = ?, told = at, posted = ?
		WHERE id = ? AND round = ? AND attempt = ? AND state = 'sending'`
	systemMarkFailed = `UPDATE reminder SET state = 'waiting', unsure = ?, next = ?
		WHERE id = ? AND round = ? AND attempt = ? AND state = 'sending'`
	systemPutOff = `UPDATE reminder SET next = ? WHERE id = ? AND round = ? AND state IN ('waiting', 'sending')`
	systemDrop   = `UPDATE reminder SET state = 'dropped'
		WHERE id = ? AND round = ? AND state IN ('waiting', 'sending')`
	systemPruneParty   = `DELETE FROM party WHERE removed < ?`
	systemPruneReading = `DELETE FROM reading WHERE at < ?`
	systemPruneSent    = `DELETE FROM reminder WHERE state IN ('sent', 'dropped') AND at < ?`
	systemBackup       = `VACUUM INTO ?`
	// systemOtherTables finds plans for parties to come, and the name of the tables that each was held against
	systemOtherTables = `SELECT r.community, r.party, ifnull(r.doc ->> '$.tables', '') FROM piece r
		JOIN party ON party.community = r.community AND party.id = r.party
		WHERE (?1 = '' OR r.community = ?1) AND (?2 = '' OR r.community <> ?2)
			AND (?4 <= 1 OR CASE WHEN r.community GLOB '*[^0-9]*' THEN 0
				ELSE (CAST(r.community AS INTEGER) >> 22) % ?4 END = ?3)
			AND r.kind = 'plan' AND removed IS NULL AND arrival > ?5
		ORDER BY r.community, r.party`

	// systemOfAccount reads across communities: who writes where no community is, as in direct messages, is found by
	// the account alone. What is shown of it is for the caller to decide.
	systemOfAccount = `SELECT party.community, party.id, name, zone, channel, arrival, covers, revision
	FROM piece JOIN party ON party.community = piece.community AND party.id = piece.party
	WHERE piece.kind = 'person' AND piece.doc ->> '$.chat' = ? AND removed IS NULL ORDER BY arrival, party.id`
)

// How long things are kept that nobody asks for any more.
const (
	KeepRemoved   = 30 * 24 * time.Hour // a removed party can be brought back for so long
	KeepReminders = 90 * 24 * time.Hour // after the instant they spoke of
)

// Prune deletes what has been kept for long enough.
func (s *Store) Prune(ctx context.Context, now time.Time) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, systemPruneParty, toMilli(now.Add(-KeepRemoved))); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, systemPruneReading, toMilli(now.Add(-KeepReadings))); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, systemPruneSent, toMilli(now.Add(-KeepReminders)))
		return err
	})
}
