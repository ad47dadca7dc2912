package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// TestWrite makes a database of two invented reports, one of a hole that is
// still open, and reads back what govulncheck asks of it.
func TestWrite(t *testing.T) {
	repository, folder := t.TempDir(), t.TempDir()
	reports := filepath.Join(repository, "data", "osv")
	if err := os.MkdirAll(reports, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"GO-1.json": `{"id": "GO-1", "modified": "2026-01-02T00:00:00Z", "aliases": ["CVE-1"], "affected": [{"package": {"name": "example.org/b"},
			"ranges": [{"events": [{"introduced": "0"}, {"fixed": "1.2.0"}, {"introduced": "1.3.0"}, {"fixed": "1.3.1"}]}]}]}`,
		"GO-2.json": `{"id": "GO-2", "modified": "2026-01-03T00:00:00Z", "affected": [{"package": {"name": "example.org/a"},
			"ranges": [{"events": [{"introduced": "0"}]}]}, {"package": {"name": "example.org/b"}, "ranges": []}]}`,
	} {
		if err := os.WriteFile(filepath.Join(reports, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	made := time.Date(2026, 2, 3, 0, 0, 0, 0, time.UTC)
	count, err := write(list{Dir: repository, Time: made}, folder)
	if err != nil || count != 2 {
		t.Fatalf("write gave %d, %v; want 2 reports", count, err)
	}
	one, two := time.Date(2026, 1, 2, 0, 0, 0, 0, time.UTC), time.Date(2026, 1, 3, 0, 0, 0, 0, time.UTC)
	var modules []moduleRow
	read(t, filepath.Join(folder, "index", "modules.json"), &modules)
	if diff := cmp.Diff([]moduleRow{
		{"example.org/a", []moduleHole{{"GO-2", two, ""}}},
		{"example.org/b", []moduleHole{{"GO-1", one, "1.3.1"}, {"GO-2", two, ""}}},
	}, modules); diff != "" {
		t.Error("modules.json:", diff)
	}
	var rows []holeRow
	read(t, filepath.Join(folder, "index", "vulns.json"), &rows)
	if diff := cmp.Diff([]holeRow{{"GO-1", one, []string{"CVE-1"}}, {"GO-2", two, nil}}, rows); diff != "" {
		t.Error("vulns.json:", diff)
	}
	var db map[string]time.Time
	read(t, filepath.Join(folder, "index", "db.json"), &db)
	if !db["modified"].Equal(made) {
		t.Errorf("db.json says %v, want %v", db["modified"], made)
	}
	if _, err := os.Stat(filepath.Join(folder, "ID", "GO-1.json")); err != nil {
		t.Error(err)
	}
	if _, err := write(list{Dir: t.TempDir()}, t.TempDir()); err == nil {
		t.Error("a list without reports was taken")
	}
}

func read(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err == nil {
		err = json.Unmarshal(text, into)
	}
	if err != nil {
		t.Fatal(err)
	}
}
