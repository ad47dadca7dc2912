package archive

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"

	"quern/internal/nutrition"
	"quern/internal/transcript"
	"quern/schema"
)

// longestLine is the largest line of a stream, in bytes: a transcript of the
// largest size in which every letter had to be escaped by two.
const longestLine = 2 * transcript.MaxBytes

// told is a line of a stream that comes in.
type told struct {
	Name *string `json:"name"`
	Text *string `json:"text"`
}

// failure is a line that goes out in the place of a document.
type failure struct {
	Error string `json:"error"`
	Line  int    `json:"line"`
	Name  string `json:"name,omitempty"`
}

// streamLine is a line of the input, or why there is none.
type streamLine struct {
	number int
	data   []byte
	err    error
	last   bool // of what has come so far: nothing more was waiting to be read
}

// streamed is what a line came to.
type streamed struct {
	out    []byte
	failed error
	last   bool // see streamLine
}

// Stream reads lines of JSON, each an object with the name and the text of one
// transcript, and writes each recipe told in them as one line of JSON, in the
// order of the input. A line that can't be read gives one line with the key
// error, told to failed as well, and the rest goes on; failures counts those.
// Empty lines are passed over. Nothing is kept between lines, so that a stream
// can be cut and spread over machines at any line. jobs is how many lines are
// worked on at once, 0 for one a processor; foods are a person's own foods, nil
// for none. The error is that of the reader or the writer, or the context's.
func Stream(ctx context.Context, in io.Reader, out io.Writer, jobs int, own *nutrition.Own, failed func(error)) (failures int, err error) {
	if jobs <= 0 {
		jobs = runtime.GOMAXPROCS(0)
	}
	r := bufio.NewReaderSize(in, 1<<16)
	w := bufio.NewWriterSize(out, 1<<16)
	number := 0
	var readErr error
	next := func() (streamLine, bool) {
		for {
			data, err := readLine(r)
			if errors.Is(err, io.EOF) {
				return streamLine{}, false
			}
			number++
			if err != nil && !errors.Is(err, errLong) {
				readErr = fmt.Errorf("line %d: cannot be read: %w", number, err)
				return streamLine{}, false
			}
			if err != nil || len(bytes.TrimSpace(data)) > 0 {
				return streamLine{number, data, err, r.Buffered() == 0}, true
			}
		}
	}
	work := func(l streamLine) streamed {
		s := l.work(own)
		s.last = l.last
		return s
	}
	err = ordered(ctx, jobs, 4*jobs, next, work, func(s streamed) error {
		if s.failed != nil {
			failures++
			failed(s.failed)
		}
		if _, err := w.Write(s.out); err != nil {
			return err
		}
		// An engine on the other side may wait for this line before it sends more.
		if s.last {
			return w.Flush()
		}
		return nil
	})
	return failures, errors.Join(err, w.Flush(), readErr)
}

// errLong means that a line is over longestLine.
var errLong = fmt.Errorf("longer than %d MB", longestLine>>20)

// readLine gives the next line. One that is too long is passed over to its end
// and told of by errLong.
func readLine(r *bufio.Reader) ([]byte, error) {
	var line []byte
	long := false
	for {
		part, err := r.ReadSlice('\n')
		if !long {
			line = append(line, part...)
		}
		if len(line) > longestLine {
			long, line = true, nil
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && (len(line) > 0 || long):
		case err != nil:
			return nil, err
		}
		if long {
			return nil, errLong
		}
		return line, nil
	}
}

// work makes what goes out for a line.
func (l streamLine) work(own *nutrition.Own) streamed {
	name := ""
	fail := func(err error) streamed {
		line, _ := json.Marshal(failure{err.Error(), l.number, name}) // texts and a number always can be
		return streamed{out: append(line, '\n'), failed: fmt.Errorf("line %d: %w", l.number, err)}
	}
	if l.err != nil {
		return fail(l.err)
	}
	var t told
	if err := json.Unmarshal(l.data, &t); err != nil {
		return fail(fmt.Errorf("not a JSON object: %w; write {\"name\": \"talk.vtt\", \"text\": \"…\"}", err))
	}
	if t.Name != nil {
		name = *t.Name
	}
	if t.Text == nil {
		return fail(errors.New(`no "text"; write {"name": "talk.vtt", "text": "…"}`))
	}
	if name == "" {
		name = fmt.Sprintf("line %d", l.number)
	}
	n, err := transcript.Parse(name, []byte(*t.Text))
	if err != nil {
		return fail(err)
	}
	var b bytes.Buffer
	if err := schema.WriteJSON(&b, recipesOf(n, own)...); err != nil {
		return fail(err)
	}
	return streamed{out: b.Bytes()}
}
