package archive

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestClashes(t *testing.T) {
	items := []item{
		{path: "Cakes/plum.vtt", document: "Cakes/plum.yaml"},
		{path: "cakes/Plum.srt", document: "cakes/Plum.yaml"},
		{path: "cakes/plum pie.srt", document: "cakes/plum pie.yaml"},
		{path: "cre\u0301pe.vtt", document: "cre\u0301pe.yaml"},
		{path: "cr\u00e9pe.vtt", document: "cr\u00e9pe.yaml"},
		{path: "crepe.vtt", document: "crepe.yaml"},
		{path: "left.out", taken: "plum.vtt"},
	}
	got, err := clashes(items, func(a, b string) (bool, error) { return true, nil })
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"cakes/Plum.srt": "Cakes/plum.vtt", "cr\u00e9pe.vtt": "cre\u0301pe.vtt"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("on a disk that doesn't tell them apart (-want +got):\n%s", d)
	}
	got, err = clashes(items, func(a, b string) (bool, error) { return false, nil })
	if err != nil || len(got) > 0 {
		t.Errorf("on a disk that tells them apart: %v, %v", got, err)
	}
}

// The disk answers as it is, and nothing stays behind on it.
func TestAlikeAsksTheDisk(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "capital"), "")
	_, err := os.Lstat(filepath.Join(dir, "CAPITAL"))
	folds := err == nil
	s := &state{folder: t.TempDir()}
	for _, tt := range []struct {
		a, b string
		want bool
	}{
		{"Cakes/Plum.yaml", "cakes/plum.yaml", folds},
		{strings.Repeat("long/", 40) + "A", strings.Repeat("long/", 40) + "a", folds},
		{"a.yaml", "b.yaml", false},
		{"a.yaml", "a.yaml", true},
	} {
		got, err := s.alike(tt.a, tt.b)
		if err != nil || got != tt.want {
			t.Errorf("%.40s and %.40s alike: %t, %v, want %t", tt.a, tt.b, got, err, tt.want)
		}
	}
	if left := tree(t, s.folder); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// Names that differ in capitals alone each get a document of their own, or the
// second is told of; neither is merged into the other.
func TestNamesAlike(t *testing.T) {
	files := map[string]string{"plum.txt": talks["cakes/plum.txt"], "Plum.vtt": talks["bars.vtt"]}
	in := folder(t, files)
	if len(tree(t, in)) < len(files) {
		t.Skip("wanted a disk that tells capitals from small letters, to lay the recordings on")
	}
	out := t.TempDir()
	sum, states := batch(t, Options{Folder: in, Out: out})
	if states["Plum.vtt"] != Written || states["plum.txt"] != Written || len(sum.Failures) > 0 {
		t.Errorf("states %v, failures %v", states, sum.Failures)
	}
	r := &run{opt: Options{Folder: in, Out: out}, clash: map[string]string{"plum.txt": "Plum.vtt"}}
	res := r.one(item{path: "plum.txt", document: "plum.yaml"})
	if res.event.State != Failed || !strings.Contains(res.event.Err.Error(), "plum.txt: its document would be the same file as that of Plum.vtt") {
		t.Errorf("a clash gives %v, %v", res.event.State, res.event.Err)
	}
}
