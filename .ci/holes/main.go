// Holes writes the published list of known holes in Go modules as a database
// that govulncheck reads, for where the list's own site can't be reached.
//
//	go run ./.ci/holes FOLDER
//
// The list is the newest version of the module golang.org/x/vulndb that the
// module proxy has; its folder data/osv holds one report a file in the form of
// https://ossf.github.io/osv-schema. FOLDER is written in the form of version 1
// of the Go vulnerability database (https://go.dev/doc/security/vuln/database)
// and is given to govulncheck as -db=file://FOLDER.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"time"
)

// report is what the index needs of one report.
type report struct {
	ID       string    `json:"id"`
	Modified time.Time `json:"modified"`
	Aliases  []string  `json:"aliases"`
	Affected []struct {
		Package struct {
			Name string `json:"name"`
		} `json:"package"`
		Ranges []struct {
			Events []struct {
				Fixed string `json:"fixed"`
			} `json:"events"`
		} `json:"ranges"`
	} `json:"affected"`
}

// moduleHole is one hole in a row of index/modules.json.
type moduleHole struct {
	ID       string    `json:"id"`
	Modified time.Time `json:"modified"`
	Fixed    string    `json:"fixed,omitempty"`
}

// moduleRow is a row of index/modules.json.
type moduleRow struct {
	Path  string       `json:"path"`
	Vulns []moduleHole `json:"vulns"`
}

// holeRow is a row of index/vulns.json.
type holeRow struct {
	ID       string    `json:"id"`
	Modified time.Time `json:"modified"`
	Aliases  []string  `json:"aliases,omitempty"`
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./.ci/holes FOLDER")
		os.Exit(2)
	}
	list, err := fetch()
	if err != nil {
		fmt.Fprintln(os.Stderr, "holes: the list of known holes can't be had:", err)
		os.Exit(1)
	}
	count, err := write(list, os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, "holes:", err)
		os.Exit(1)
	}
	fmt.Printf("%d reports of known holes, as of %s\n", count, list.Time.Format(time.DateOnly))
}

// list is the module that holds the reports: where it is unpacked, which
// version it is and when that was made.
type list struct {
	Dir     string
	Version string
	Time    time.Time
}

// fetch has the go command bring the newest list.
func fetch() (list, error) {
	var l list
	for _, args := range [][]string{
		{"mod", "download", "-json", "golang.org/x/vulndb@latest"},
		{"list", "-m", "-json", "golang.org/x/vulndb@latest"},
	} {
		out, err := exec.Command("go", args...).Output()
		if err != nil {
			return l, fmt.Errorf("go %s: %w", strings.Join(args, " "), err)
		}
		if err := json.Unmarshal(out, &l); err != nil {
			return l, err
		}
	}
	return l, nil
}

// write makes the database in folder and tells how many reports it holds.
func write(from list, folder string) (int, error) {
	files, err := filepath.Glob(filepath.Join(from.Dir, "data", "osv", "*.json"))
	if err != nil {
		return 0, err
	}
	if len(files) == 0 {
		return 0, errors.New("no reports in " + filepath.Join(from.Dir, "data", "osv"))
	}
	for _, sub := range []string{"index", "ID"} {
		if err := os.MkdirAll(filepath.Join(folder, sub), 0o755); err != nil {
			return 0, err
		}
	}
	var (
		rows    []holeRow
		modules = map[string][]moduleHole{}
	)
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return 0, err
		}
		var r report
		if err := json.Unmarshal(text, &r); err != nil {
			return 0, fmt.Errorf("%s: %w", file, err)
		}
		if err := os.WriteFile(filepath.Join(folder, "ID", r.ID+".json"), text, 0o644); err != nil {
			return 0, err
		}
		rows = append(rows, holeRow{r.ID, r.Modified, r.Aliases})
		for path, fixed := range r.fixedIn() {
			modules[path] = append(modules[path], moduleHole{r.ID, r.Modified, fixed})
		}
	}
	index := map[string]any{
		"db.json":      map[string]time.Time{"modified": from.Time},
		"vulns.json":   rows,
		"modules.json": sorted(modules),
	}
	for name, value := range index {
		text, err := json.Marshal(value)
		if err != nil {
			return 0, err
		}
		if err := os.WriteFile(filepath.Join(folder, "index", name), text, 0o644); err != nil {
			return 0, err
		}
	}
	return len(files), nil
}

// fixedIn gives the modules a report is about, each with the last version that
// a range of it ends at; empty where the hole is still open.
func (r *report) fixedIn() map[string]string {
	fixed := map[string]string{}
	for _, a := range r.Affected {
		last := ""
		for _, rng := range a.Ranges {
			for _, e := range rng.Events {
				if e.Fixed != "" {
					last = e.Fixed
				}
			}
		}
		fixed[a.Package.Name] = last
	}
	return fixed
}

// sorted turns modules into rows in the order of their paths.
func sorted(modules map[string][]moduleHole) []moduleRow {
	rows := make([]moduleRow, 0, len(modules))
	for path, holes := range modules {
		rows = append(rows, moduleRow{path, holes})
	}
	sort.Slice(rows, func(i, j int) bool { return rows[i].Path < rows[j].Path })
	return rows
}
