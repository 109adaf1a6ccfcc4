// Package held has what a tureen of the autumn of 2026 left behind in the middle of an evening, for tests that
// today's
// still reads, goes on with and takes back all of it. README.md says what it is and how it came about.
package held

import (
	"bytes"
	"compress/gzip"
	"database/sql"
	"embed"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	_ "modernc.org/sqlite" // writes the file
)

//go:embed data
var data embed.FS

// Now is when the evening was left: the guests come in fifty minutes.
var Now = time.Date(2026, 10, 10, 15, 20, 0, 0, time.UTC)

// Schema is the number of steps of store/migrations that the file has taken.
const Schema = 3

// Text is a file of the folder data.
func Text(t testing.TB, name string) string {
	t.Helper()
	text, err := data.ReadFile("data/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// File writes the database that was left and answers its path. swaps are texts in it with what takes their place, for
// a test that lives in another community. more is done to it at the end.
func File(t testing.TB, swaps *strings.Replacer, more ...string) string {
	t.Helper()
	zipped, err := gzip.NewReader(bytes.NewReader([]byte(Text(t, "party.sql.gz"))))
	if err != nil {
		t.Fatal(err)
	}
	dump, err := io.ReadAll(zipped)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "held.db")
	db, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	text := string(dump)
	if swaps != nil {
		text = swaps.Replace(text)
	}
	for _, statements := range append([]string{text}, more...) {
		if _, err := db.Exec(statements); err != nil {
			t.Fatal(err)
		}
	}
	return path
}
