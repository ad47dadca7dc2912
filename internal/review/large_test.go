package review

import (
	"net/http"
	"path/filepath"
	"strings"
	"testing"
)

// A form of any size costs an answer and nothing more.
func TestAFormThatIsTooLarge(t *testing.T) {
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	path := filepath.Join(dir, "oat-bars.yaml")
	before := read(t, path)
	_, page, _ := get(t, root+"recipe/1/0")
	form := answer(t, page, map[string]string{"amount-unstated:butter": strings.Repeat("x", mostForm)})
	code, body, _ := ask(t, http.MethodPost, root+"recipe/1/0", form, nil)
	if code != http.StatusRequestEntityTooLarge || !strings.Contains(body, "more than 1 MB of answers at once") {
		t.Errorf("gives %d %q", code, body)
	}
	if read(t, path) != before {
		t.Error("the document was changed")
	}
}
