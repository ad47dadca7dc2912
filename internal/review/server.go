// Package review serves a page on this computer only, on which a person
// settles the open flags of her recipes: the talk with its words marked by
// what they became, the recipe as it reads now, and the questions with a
// field each.
//
// The address holds a random token; requests with another token, host or
// origin are refused, and nothing but the documents, their transcripts and the
// recording named at the start can be reached. Documents are changed through
// package merge: an edit made elsewhere meanwhile is told of and never written
// over.
package review

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"sync"
	"time"

	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/nutrition"
	"quern/schema"
)

// Options are what a review is started with besides the documents.
type Options struct {
	Recording string // a video or sound file to play from; "" for none
	// Foods gives a person's own foods for a document; nil for none at all. It
	// is asked each time a document is read, for they may be edited meanwhile.
	Foods func(document string) (*nutrition.Own, error)
}

// Server is one review: the documents, and the address they are served at.
type Server struct {
	opt       Options
	token     string
	host      string // "127.0.0.1:port", the only one answered to
	books     []*book
	recording *recording
}

// book is one document file under review.
type book struct {
	mu   sync.Mutex
	file *merge.File
	name string // as shown
	opt  derive.Options
	undo []change
}

// finish waits for a save that outlived its connection.
func (b *book) finish() {
	b.mu.Lock()
	defer b.mu.Unlock()
}

// change is one save of this review, to be taken back.
type change struct{ before, after []byte }

// recording is the file to play from, open since the start so that no other
// file can be put in its place.
type recording struct {
	file  *os.File
	name  string
	size  int64
	mod   time.Time
	video bool
}

// New prepares a review of recipe documents: files, and folders in which every
// recipe document is taken, those in folders below as well; hidden files and
// links in a folder are passed over. It is an error when there is none.
func New(paths []string, opt Options) (*Server, error) {
	s := &Server{opt: opt}
	var token [18]byte
	if _, err := rand.Read(token[:]); err != nil {
		return nil, fmt.Errorf("make the address secret: %w", err)
	}
	s.token = hex.EncodeToString(token[:])
	seen := map[string]bool{}
	for _, p := range paths {
		files, err := documents(p)
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			real, err := filepath.EvalSymlinks(f)
			if err != nil {
				return nil, err
			}
			if seen[real] {
				continue
			}
			seen[real] = true
			file, err := merge.Open(f)
			if err != nil {
				return nil, err
			}
			s.books = append(s.books, &book{file: file, name: f})
		}
	}
	if len(s.books) == 0 {
		return nil, fmt.Errorf("no recipe document in %s; quern extract makes one of a transcript", strings.Join(paths, ", "))
	}
	if opt.Recording != "" {
		r, err := openRecording(opt.Recording)
		if err != nil {
			return nil, err
		}
		s.recording = r
	}
	return s, nil
}

// documents lists the recipe documents a path names.
func documents(path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return []string{path}, nil
	}
	var files []string
	err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case p != path && strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		case !d.Type().IsRegular():
			return nil
		}
		switch strings.ToLower(filepath.Ext(p)) {
		case ".yaml", ".yml", ".json":
			if isRecipe(p) {
				files = append(files, p)
			}
		}
		return nil
	})
	sort.Strings(files)
	return files, err
}

// isRecipe tells a recipe document from other files of its kind by its first
// field, also where the rest of it does not read.
func isRecipe(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, 64<<10))
	if err != nil {
		return false
	}
	for _, l := range strings.Split(string(head), "\n") {
		if strings.HasPrefix(l, "recipe:") {
			return true
		}
	}
	return strings.Contains(string(head), `"recipe"`)
}

// soundTypes and videoTypes are the recordings a browser plays, by the ending
// of their names.
var (
	soundTypes = map[string]string{".mp3": "audio/mpeg", ".m4a": "audio/mp4", ".aac": "audio/aac", ".ogg": "audio/ogg", ".oga": "audio/ogg",
		".opus": "audio/ogg", ".wav": "audio/wav", ".flac": "audio/flac", ".weba": "audio/webm"}
	videoTypes = map[string]string{".mp4": "video/mp4", ".m4v": "video/mp4", ".mov": "video/mp4", ".webm": "video/webm", ".ogv": "video/ogg", ".mkv": "video/x-matroska"}
)

func openRecording(path string) (*recording, error) {
	ext := strings.ToLower(filepath.Ext(path))
	if soundTypes[ext] == "" && videoTypes[ext] == "" {
		return nil, fmt.Errorf("%s: not a video or sound file a browser plays (mp4, webm, mov, mp3, m4a, ogg, wav, flac …)", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s: not a file", path)
	}
	if err != nil {
		_ = f.Close()
		return nil, err
	}
	return &recording{file: f, name: filepath.Base(path), size: info.Size(), mod: info.ModTime(), video: videoTypes[ext] != ""}, nil
}

func (r *recording) kind() string {
	ext := strings.ToLower(filepath.Ext(r.name))
	if t := videoTypes[ext]; t != "" {
		return t
	}
	return soundTypes[ext]
}

// Listen opens a port on the loopback address; port 0 takes a free one. It
// returns the listener and the address to open in a browser.
func (s *Server) Listen(port int) (net.Listener, string, error) {
	l, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return nil, "", fmt.Errorf("open port %d on this computer: %w; leave out --port to have a free one chosen", port, err)
	}
	s.host = l.Addr().String()
	return l, "http://" + s.host + "/" + s.token + "/", nil
}

// Serve answers until the context ends; a save under way is finished first.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	srv := &http.Server{Handler: s, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, MaxHeaderBytes: 64 << 10}
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	stop, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	err := srv.Shutdown(stop)
	if errors.Is(err, context.DeadlineExceeded) {
		// A recording still playing holds its connection; every save is done.
		err = srv.Close()
	}
	for _, b := range s.books {
		b.finish()
	}
	if s.recording != nil {
		err = errors.Join(err, s.recording.file.Close())
	}
	return err
}

// policy lets the page load its own style, script and recording, and nothing
// else from anywhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	// The token stands in the address: it must not reach another origin.
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	path, ok := s.admit(w, r)
	if !ok {
		return
	}
	switch path {
	case "":
		s.only(w, r, s.list, http.MethodGet, http.MethodHead)
		return
	case "page.css", "page.js", "icon.svg":
		s.only(w, r, func(w http.ResponseWriter, r *http.Request) { asset(w, r, path) }, http.MethodGet, http.MethodHead)
		return
	case "recording":
		if s.recording != nil {
			s.only(w, r, s.play, http.MethodGet, http.MethodHead)
			return
		}
	}
	parts := strings.Split(path, "/")
	if len(parts) < 3 || len(parts) > 4 || parts[0] != "recipe" {
		http.Error(w, "there is nothing here", http.StatusNotFound)
		return
	}
	b, doc, ok := s.pick(parts[1], parts[2])
	if !ok {
		http.Error(w, "there is no such recipe", http.StatusNotFound)
		return
	}
	action := ""
	if len(parts) == 4 {
		action = parts[3]
	}
	switch action {
	case "":
		if r.Method == http.MethodPost {
			s.save(w, r, b, doc)
			return
		}
		s.only(w, r, func(w http.ResponseWriter, r *http.Request) { s.show(w, r, b, doc) }, http.MethodGet, http.MethodHead, http.MethodPost)
	case "undo":
		s.only(w, r, func(w http.ResponseWriter, r *http.Request) { s.takeBack(w, r, b, doc) }, http.MethodPost)
	case "captions.vtt":
		s.only(w, r, func(w http.ResponseWriter, r *http.Request) { s.captions(w, b, doc) }, http.MethodGet, http.MethodHead)
	default:
		http.Error(w, "there is nothing here", http.StatusNotFound)
	}
}

// admit refuses what does not come from the page itself and gives the path
// below the token.
func (s *Server) admit(w http.ResponseWriter, r *http.Request) (path string, ok bool) {
	origin := "http://" + s.host
	refuse := func(code int, why string) (string, bool) {
		http.Error(w, why, code)
		return "", false
	}
	if r.Host != s.host {
		return refuse(http.StatusForbidden, "this page answers to its own address only")
	}
	if got, given := r.Header["Origin"]; given && (len(got) != 1 || got[0] != origin) {
		return refuse(http.StatusForbidden, "this page answers to itself only")
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "none", "same-origin":
	default:
		return refuse(http.StatusForbidden, "this page answers to itself only")
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead && r.Header.Get("Origin") == "" {
		return refuse(http.StatusForbidden, "a change must come from the page itself")
	}
	// Only plain paths: no dots, no doubled or escaped slashes.
	full := r.URL.EscapedPath()
	if full != r.URL.Path || strings.Contains(full, "//") || strings.Contains(full, "..") || !strings.HasPrefix(full, "/") {
		return refuse(http.StatusNotFound, "there is nothing here")
	}
	token, rest, found := strings.Cut(full[1:], "/")
	a, b := sha256.Sum256([]byte(token)), sha256.Sum256([]byte(s.token))
	if subtle.ConstantTimeCompare(a[:], b[:]) != 1 || !found {
		return refuse(http.StatusNotFound, "there is nothing here; open the address that quern review printed")
	}
	return rest, true
}

func (s *Server) only(w http.ResponseWriter, r *http.Request, do http.HandlerFunc, methods ...string) {
	for _, m := range methods {
		if r.Method == m {
			do(w, r)
			return
		}
	}
	w.Header().Set("Allow", strings.Join(methods, ", "))
	http.Error(w, "this can't be done here", http.StatusMethodNotAllowed)
}

// pick finds a document by its numbers in the path.
func (s *Server) pick(file, doc string) (*book, int, bool) {
	i, ok := index(file)
	d, ok2 := index(doc)
	if !ok || !ok2 || i >= len(s.books) {
		return nil, 0, false
	}
	return s.books[i], d, true
}

func index(text string) (int, bool) {
	if len(text) == 0 || len(text) > 6 || len(text) > 1 && text[0] == '0' {
		return 0, false
	}
	for _, r := range text {
		if r < '0' || r > '9' {
			return 0, false
		}
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}

func (s *Server) play(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", s.recording.kind())
	http.ServeContent(w, r, "", s.recording.mod, io.NewSectionReader(s.recording.file, 0, s.recording.size))
}

// read gives the recipes of a book as they stand now, with what follows from
// them worked out. The book must be locked.
func (s *Server) read(b *book) ([]*schema.Document, error) {
	if _, err := b.file.Refresh(); err != nil {
		return nil, err
	}
	docs, err := schema.ReadAll(b.name, b.file.Data())
	if err != nil {
		return nil, err
	}
	if s.opt.Foods != nil {
		if b.opt.Own, err = s.opt.Foods(b.name); err != nil {
			return nil, err
		}
	}
	for _, d := range docs {
		derive.Apply(d, b.opt)
	}
	return docs, nil
}
