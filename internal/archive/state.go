package archive

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
)

// stateFolder is the folder, in the output folder, where a run notes what it
// did. Taking it away makes every recording new; no edit is lost by it.
const stateFolder = ".quern"

// The files of the state folder.
const (
	lockFile    = "batch.lock"    // taken while a run is at work
	stateFile   = "batch.tsv"     // what the last whole run left, in the order of the paths
	partFile    = "batch.part"    // what a run under way has finished, in the order of finishing
	reportsFile = "batch.reports" // what the reports were drawn from
	freshPrefix = "new-"          // of files not yet moved to their place
)

// sum is a SHA-256 of bytes.
type sum = [sha256.Size]byte

// entry is what is known of a recording: a line of the state.
//
// The line holds, between tabs: the path (quoted), the sums of the transcript,
// of all else the document was made from, and of the document as it was left,
// the numbers of recipes and open flags, and the rows of the report as JSON.
type entry struct {
	source, key, document sum
	recipes, open         int
	inPart                bool
	offset                int64 // of the line in its file
	length                int   // of the line in bytes, with its end
}

// state is the memory between runs. Its methods are for one goroutine, but for
// look, once it is open.
type state struct {
	folder  string // "" for a dry run
	lock    *os.File
	part    *os.File
	end     int64 // of part
	broken  bool  // an earlier run didn't come to its end
	entries map[string]entry
	reports []byte // as the last whole run left it
}

// openState reads what earlier runs noted and takes the lock. With readOnly
// nothing is made or taken.
func openState(out string, readOnly bool) (*state, error) {
	s := &state{folder: filepath.Join(out, stateFolder), entries: map[string]entry{}}
	if !readOnly {
		if err := os.MkdirAll(s.folder, 0o755); err != nil {
			return nil, fmt.Errorf("%s: cannot make the folder: %w", s.folder, err)
		}
		f, err := os.OpenFile(filepath.Join(s.folder, lockFile), os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, fmt.Errorf("%s: cannot be written to: %w", out, err)
		}
		if err := lock(f); err != nil {
			_ = f.Close() // the lock is the error to tell
			return nil, fmt.Errorf("%s: %w; wait for it to end, or choose another folder", out, err)
		}
		s.lock = f
	}
	if err := s.load(readOnly); err != nil {
		s.close()
		return nil, err
	}
	return s, nil
}

func (s *state) load(readOnly bool) error {
	if _, err := s.read(stateFile, false); err != nil {
		return err
	}
	end, err := s.read(partFile, true)
	if err != nil && !readOnly || err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	s.broken = end >= 0
	reports, err := os.ReadFile(filepath.Join(s.folder, reportsFile))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	s.reports = reports
	if readOnly {
		return nil
	}
	if err := s.sweep(); err != nil {
		return err
	}
	s.part, err = os.OpenFile(filepath.Join(s.folder, partFile), os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return err
	}
	// A line that was being written when the program was ended is cut off.
	s.end = max(end, 0)
	if err := s.part.Truncate(s.end); err != nil {
		return err
	}
	_, err = s.part.Seek(s.end, io.SeekStart)
	return err
}

// read takes the lines of a file into entries and gives where its last whole
// line ends, -1 where there is no file.
func (s *state) read(name string, part bool) (int64, error) {
	f, err := os.Open(filepath.Join(s.folder, name))
	if errors.Is(err, fs.ErrNotExist) {
		return -1, nil
	}
	if err != nil {
		return -1, err
	}
	defer f.Close()
	r := bufio.NewReaderSize(f, 1<<16)
	var offset int64
	for number := 1; ; number++ {
		line, err := r.ReadBytes('\n')
		if errors.Is(err, io.EOF) {
			return offset, nil
		}
		if err != nil {
			return offset, err
		}
		p, e, ok := parseEntry(line)
		if !ok {
			if part {
				return offset, nil
			}
			return offset, fmt.Errorf("%s:%d: not as quern batch left it; take the folder %s away, then every recording is read again",
				filepath.Join(s.folder, name), number, s.folder)
		}
		e.inPart, e.offset, e.length = part, offset, len(line)
		s.entries[p] = e
		offset += int64(len(line))
	}
}

func parseEntry(line []byte) (string, entry, bool) {
	var e entry
	fields := bytes.SplitN(bytes.TrimSuffix(line, []byte("\n")), []byte("\t"), 7)
	if len(fields) != 7 {
		return "", e, false
	}
	p, err := strconv.Unquote(string(fields[0]))
	if err != nil {
		return "", e, false
	}
	for i, to := range []*sum{&e.source, &e.key, &e.document} {
		if len(fields[i+1]) != hex.EncodedLen(len(to)) {
			return "", e, false
		}
		if _, err := hex.Decode(to[:], fields[i+1]); err != nil {
			return "", e, false
		}
	}
	if e.recipes, err = strconv.Atoi(string(fields[4])); err != nil {
		return "", e, false
	}
	if e.open, err = strconv.Atoi(string(fields[5])); err != nil {
		return "", e, false
	}
	return p, e, true
}

// sweep takes away what a stopped run had not yet moved to its place, or was
// trying out.
func (s *state) sweep() error {
	files, err := os.ReadDir(s.folder)
	if err != nil {
		return err
	}
	for _, f := range files {
		if (f.Type().IsRegular() || f.IsDir()) && len(f.Name()) > len(freshPrefix) && f.Name()[:len(freshPrefix)] == freshPrefix {
			if err := os.RemoveAll(filepath.Join(s.folder, f.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// halfWritten are the names of files that package merge was about to move over
// a document, its kept copies, when a run was killed: the name and a random
// number.
var halfWritten = regexp.MustCompile(`^\.(\.?)(.+\.yaml)(~|\.quern)?([0-9]{8,})$`)

// sweepDocuments takes such files away beside the documents of a run.
func sweepDocuments(out string, items []item) error {
	ours := map[string]bool{}
	folders := map[string]bool{}
	var order []string
	for _, it := range items {
		if it.document == "" {
			continue
		}
		ours[it.document] = true
		if dir := path.Dir(it.document); !folders[dir] {
			folders[dir] = true
			order = append(order, dir)
		}
	}
	for _, dir := range order {
		full := filepath.Join(out, filepath.FromSlash(dir))
		files, err := os.ReadDir(full)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		for _, f := range files {
			m := halfWritten.FindStringSubmatch(f.Name())
			if m == nil || !f.Type().IsRegular() || !ours[path.Join(dir, m[2])] {
				continue
			}
			if err := os.Remove(filepath.Join(full, f.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// look gives what is known of a recording. Several goroutines may call it.
func (s *state) look(p string) (entry, bool) {
	e, ok := s.entries[p]
	return e, ok
}

// note keeps what a recording came to, at once and in one write.
func (s *state) note(p string, e entry, rows []byte) (entry, error) {
	line := fmt.Appendf(nil, "%s\t%x\t%x\t%x\t%d\t%d\t%s\n", strconv.Quote(p), e.source, e.key, e.document, e.recipes, e.open, rows)
	if _, err := s.part.Write(line); err != nil {
		return e, fmt.Errorf("%s: cannot be written: %w", s.part.Name(), err)
	}
	e.inPart, e.offset, e.length = true, s.end, len(line)
	s.end += int64(len(line))
	return e, nil
}

// finish writes the state of a whole run: an entry each of the given paths in
// their order. It gives the sum of what it wrote. What is there already stays
// when it is the same.
func (s *state) finish(paths []string, entries map[string]entry) (sum, error) {
	old, err := os.Open(filepath.Join(s.folder, stateFile))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return sum{}, err
	}
	if err == nil {
		defer old.Close()
	}
	f, err := os.CreateTemp(s.folder, freshPrefix)
	if err != nil {
		return sum{}, err
	}
	defer os.Remove(f.Name()) // nothing is there once it has moved
	defer f.Close()
	h := sha256.New()
	w := bufio.NewWriterSize(io.MultiWriter(f, h), 1<<16)
	var line []byte
	for _, p := range paths {
		e, ok := entries[p]
		if !ok {
			continue
		}
		if line, err = s.line(old, e, line); err != nil {
			return sum{}, err
		}
		if _, err := w.Write(line); err != nil {
			return sum{}, err
		}
	}
	if err := w.Flush(); err != nil {
		return sum{}, err
	}
	if err := place(f, filepath.Join(s.folder, stateFile)); err != nil {
		return sum{}, err
	}
	if err := s.part.Close(); err != nil {
		return sum{}, err
	}
	s.part = nil
	return sum(h.Sum(nil)), os.Remove(filepath.Join(s.folder, partFile))
}

// line reads an entry's line back. old is the state file as the run found it.
func (s *state) line(old *os.File, e entry, buf []byte) ([]byte, error) {
	f := old
	if e.inPart {
		f = s.part
	}
	if cap(buf) < e.length {
		buf = make([]byte, e.length*3/2)
	}
	buf = buf[:e.length]
	if _, err := f.ReadAt(buf, e.offset); err != nil {
		return nil, fmt.Errorf("%s: cannot be read back: %w", f.Name(), err)
	}
	return buf, nil
}

// each gives the rows of every recording of the finished state, in order.
func eachRow(out string, do func(rows []byte) error) error {
	f, err := os.Open(filepath.Join(out, stateFolder, stateFile))
	if err != nil {
		return err
	}
	defer f.Close()
	r := bufio.NewReaderSize(f, 1<<16)
	for {
		line, err := r.ReadBytes('\n')
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		fields := bytes.SplitN(bytes.TrimSuffix(line, []byte("\n")), []byte("\t"), 7)
		if len(fields) != 7 {
			return fmt.Errorf("%s: a line is not whole", f.Name())
		}
		if err := do(fields[6]); err != nil {
			return err
		}
	}
}

func (s *state) close() {
	// Whatever is of worth was written by note and finish.
	if s.part != nil {
		_ = s.part.Close()
	}
	if s.lock != nil {
		_ = s.lock.Close()
	}
}

// put writes a file whole or not at all: it is made in the state folder,
// flushed to the disk and moved.
func (s *state) put(name string, data []byte) error {
	f, err := os.CreateTemp(s.folder, freshPrefix)
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // nothing is there once it has moved
	defer f.Close()
	if _, err := f.Write(data); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", name, err)
	}
	return place(f, name)
}

// place flushes a finished file and moves it to its name.
func place(f *os.File, name string) error {
	if err := f.Chmod(0o644); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", name, err)
	}
	if err := f.Sync(); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", name, err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", name, err)
	}
	if err := os.Rename(f.Name(), name); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", name, err)
	}
	return nil
}
