package schema

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
)

var update = flag.Bool("update", false, "write the golden files anew")

// inputs lists the files of a folder of whole inputs, without the golden files
// beside them.
func inputs(t testing.TB, folder string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, "*"))
	if err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, f := range all {
		if !strings.Contains(filepath.Base(f), ".want.") {
			files = append(files, f)
		}
	}
	if len(files) == 0 {
		t.Fatalf("no inputs in %s", folder)
	}
	return files
}

// golden compares got with a golden file.
func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got)\n%s", file, diff)
	}
}

func TestGoodInputs(t *testing.T) {
	for _, file := range inputs(t, "../testdata/schema/ok") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range Validate(file, data) {
				t.Error(p)
			}
			docs, err := ReadAll(file, data)
			if err != nil {
				t.Fatal(err)
			}
			var inYAML, inJSON bytes.Buffer
			if err := WriteYAML(&inYAML, docs...); err != nil {
				t.Fatal(err)
			}
			if err := WriteJSON(&inJSON, docs...); err != nil {
				t.Fatal(err)
			}
			golden(t, file+".want.yaml", inYAML.Bytes())
			golden(t, file+".want.json", inJSON.Bytes())
			for name, written := range map[string][]byte{"yaml": inYAML.Bytes(), "json": inJSON.Bytes()} {
				for _, p := range Validate("written "+name, written) {
					t.Error(p)
				}
				back, err := ReadAll("written "+name, written)
				if err != nil {
					t.Fatal(err)
				}
				var again bytes.Buffer
				if err := WriteYAML(&again, back...); err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(inYAML.String(), again.String()); diff != "" {
					t.Errorf("read back from %s (-first +again)\n%s", name, diff)
				}
			}
		})
	}
}

func TestBadInputs(t *testing.T) {
	for _, file := range inputs(t, "../testdata/schema/err") {
		base := filepath.Base(file)
		t.Run(base, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			problems := Validate(base, data)
			if len(problems) == 0 {
				t.Error("no problem found")
			}
			for i, p := range problems {
				fmt.Fprintln(&out, p)
				if p.Accepted == "" {
					t.Errorf("%v does not say what is accepted", p)
				}
				if i > 0 && p.Line < problems[i-1].Line {
					t.Errorf("%v stands out of order", p)
				}
			}
			if _, err := ReadAll(base, data); err != nil {
				if !errors.Is(err, ErrSyntax) && !errors.Is(err, ErrInvalid) {
					t.Errorf("%v is neither ErrSyntax nor ErrInvalid", err)
				}
				fmt.Fprintln(&out, "read:", err)
			}
			golden(t, file+".want.txt", out.Bytes())
		})
	}
}

// TestSchemaNamesEveryField holds the JSON Schema and the Go types together:
// each key of one is a key of the other, and the tags of both formats agree.
func TestSchemaNamesEveryField(t *testing.T) {
	var root map[string]any
	if err := json.Unmarshal(JSONSchema(), &root); err != nil {
		t.Fatal(err)
	}
	definitions := root["definitions"].(map[string]any)
	resolve := func(s map[string]any) map[string]any {
		if ref, ok := s["$ref"].(string); ok {
			return definitions[strings.TrimPrefix(ref, "#/definitions/")].(map[string]any)
		}
		return s
	}
	seen := map[reflect.Type]bool{}
	var compare func(typ reflect.Type, s map[string]any, path string)
	compare = func(typ reflect.Type, s map[string]any, path string) {
		s = resolve(s)
		for typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() == reflect.Slice {
			items, ok := s["items"].(map[string]any)
			if !ok {
				t.Errorf("%s is no list in the schema", path)
				return
			}
			compare(typ.Elem(), items, path+"[]")
			return
		}
		if typ == quantityType {
			typ = quantityObjectType
		}
		if typ.Kind() != reflect.Struct {
			return
		}
		if s["additionalProperties"] != false {
			t.Errorf("%s lets unknown keys through", path)
		}
		properties := s["properties"].(map[string]any)
		known := map[string]bool{}
		for _, f := range keysOf(typ) {
			known[f.key] = true
			property, ok := properties[f.key].(map[string]any)
			if !ok {
				t.Errorf("the schema has no %s.%s", path, f.key)
				continue
			}
			if typ != quantityObjectType {
				compare(f.typ, property, path+"."+f.key)
			}
		}
		for key := range properties {
			if !known[key] {
				t.Errorf("the Go type has no %s.%s", path, key)
			}
		}
		seen[typ] = true
		for i := 0; i < typ.NumField(); i++ {
			f := typ.Field(i)
			y, _, _ := strings.Cut(f.Tag.Get("yaml"), ",")
			j, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if y != j {
				t.Errorf("%s.%s is %q in YAML and %q in JSON", path, f.Name, y, j)
			}
		}
	}
	compare(documentType, root, "document")
	if len(seen) < 15 {
		t.Errorf("only %d types compared", len(seen))
	}
	kinds := definitions["flag"].(map[string]any)["properties"].(map[string]any)["kind"].(map[string]any)["enum"].([]any)
	var names []string
	for _, k := range kinds {
		names = append(names, k.(string))
	}
	if diff := cmp.Diff(FlagKinds(), names); diff != "" {
		t.Errorf("flag kinds (-go +schema)\n%s", diff)
	}
	quantity := definitions["quantity"].(map[string]any)["properties"]
	if diff := cmp.Diff(quantity, definitions["quantity_or_null"].(map[string]any)["properties"]); diff != "" {
		t.Errorf("the two quantities of the schema differ\n%s", diff)
	}
}

// TestSchemaAloneAcceptsWhatIsWritten checks the written JSON, untouched by the
// reader, against the schema, as somebody else's program would.
func TestSchemaAloneAcceptsWhatIsWritten(t *testing.T) {
	for _, file := range inputs(t, "../testdata/schema/ok") {
		written, err := os.ReadFile(file + ".want.json")
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range bytes.Split(bytes.TrimSpace(written), []byte("\n")) {
			dec := json.NewDecoder(bytes.NewReader(line))
			dec.UseNumber()
			var value any
			if err := dec.Decode(&value); err != nil {
				t.Fatal(err)
			}
			found, err := violations(value)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range found {
				t.Errorf("%s: %s: %s", file, plainPath(v.path), v.kind)
			}
			assertNoNullLists(t, value, documentType, "document")
		}
	}
}

func assertNoNullLists(t *testing.T, value any, typ reflect.Type, path string) {
	for typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	m, ok := value.(map[string]any)
	if !ok || typ.Kind() != reflect.Struct || typ == quantityType {
		return
	}
	for i := 0; i < typ.NumField(); i++ {
		f := typ.Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		child, present := m[key]
		if f.Type.Kind() == reflect.Slice {
			list, isList := child.([]any)
			if !isList && (present || !strings.Contains(options, "omitempty")) {
				t.Errorf("%s.%s is %v, no list", path, key, child)
			}
			for _, item := range list {
				assertNoNullLists(t, item, f.Type.Elem(), path+"."+key)
			}
			continue
		}
		assertNoNullLists(t, child, f.Type, path+"."+key)
	}
}

func TestOneProblemForAValueThatFitsNoForm(t *testing.T) {
	found, err := violations(map[string]any{
		"recipe": json.Number("1"), "title": "x",
		"ingredients": []any{map[string]any{"id": "a", "name": "a", "amount": map[string]any{"unit": "cup"}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(found) != 1 || plainPath(found[0].path) != "ingredients[0].amount" {
		t.Errorf("got %+v, want one for ingredients[0].amount", found)
	}
}

func TestReadWantsOne(t *testing.T) {
	two := []byte("recipe: 1\ntitle: a\ningredients: []\n---\nrecipe: 1\ntitle: b\ningredients: []\n")
	if _, err := Read("two.yaml", two); !errors.Is(err, ErrSyntax) || !strings.Contains(err.Error(), "two.yaml: not a recipe document: it holds 2 recipes") {
		t.Errorf("Read gave %v", err)
	}
	if _, err := ReadNode(two); !errors.Is(err, ErrSyntax) {
		t.Errorf("ReadNode gave %v", err)
	}
	docs, err := ReadAll("two.yaml", two)
	if err != nil || len(docs) != 2 || docs[1].Title != "b" {
		t.Errorf("ReadAll gave %v, %v", docs, err)
	}
}

func TestReadEncodings(t *testing.T) {
	want := "Crème"
	text := "recipe: 1\ntitle: Crème\ningredients: []\n"
	utf16 := []byte{0xff, 0xfe}
	for _, r := range text {
		utf16 = append(utf16, byte(r), byte(r>>8))
	}
	for name, data := range map[string][]byte{
		"utf-8":             []byte(text),
		"with a mark":       []byte("\xef\xbb\xbf" + text),
		"json with a mark":  []byte("\xef\xbb\xbf" + `{"recipe":1,"title":"Crème","ingredients":[]}`),
		"utf-16":            utf16,
		"carriage returns":  []byte(strings.ReplaceAll(text, "\n", "\r\n")),
		"flow style":        []byte("{recipe: 1, title: Crème, ingredients: []}"),
		"leading separator": []byte("---\n" + text + "...\n"),
	} {
		doc, err := Read(name, data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if doc.Title != want {
			t.Errorf("%s: title %q", name, doc.Title)
		}
	}
	if _, err := Read("latin", []byte("recipe: 1\ntitle: Cr\xe8me\n")); !errors.Is(err, ErrSyntax) {
		t.Errorf("a title that is no UTF-8 gave %v", err)
	}
}

func TestReadNodeKeepsComments(t *testing.T) {
	text := "# mine\nrecipe: 1\ntitle: Soup # of leeks\ningredients: []\n"
	node, err := ReadNode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	enc := yaml.NewEncoder(&out)
	if err := enc.Encode(node); err != nil {
		t.Fatal(err)
	}
	if out.String() != text {
		t.Errorf("got\n%s", out.String())
	}
}

func TestLimits(t *testing.T) {
	head := "recipe: 1\ntitle: x\ningredients: []\nsteps: "
	for name, data := range map[string][]byte{
		"too large":           bytes.Repeat([]byte(" "), maxBytes+1),
		"too many parts":      []byte(head + "[" + strings.Repeat("a,", maxNodes+1) + "]"),
		"too many json parts": []byte(`{"a":[` + strings.Repeat("1,", maxNodes+1) + `1]}`),
		"deep brackets":       []byte(head + strings.Repeat("[", 100_000)),
		"deep json":           []byte(`{"a":` + strings.Repeat("[", 100_000)),
		"deep lists":          []byte(head + "\n" + strings.Repeat("- ", 5000) + "a\n"),
		"deep keys":           []byte(strings.Repeat("? ", 5000) + "a\n"),
	} {
		if _, err := ReadAll(name, data); !errors.Is(err, ErrSyntax) {
			t.Errorf("%s: %.200v", name, err)
		}
	}
}

func TestConcurrentUse(t *testing.T) {
	data, err := os.ReadFile("../testdata/schema/ok/full.yaml")
	if err != nil {
		t.Fatal(err)
	}
	outs := make([]bytes.Buffer, 8)
	var wg sync.WaitGroup
	for i := range outs {
		wg.Go(func() {
			doc, err := Read("full.yaml", data)
			if err != nil {
				t.Error(err)
				return
			}
			if err := WriteYAML(&outs[i], doc); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	for i := range outs {
		if outs[i].String() != outs[0].String() || outs[i].Len() == 0 {
			t.Errorf("run %d differs", i)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	bad := Single(2, "cuups")
	for name, doc := range map[string]*Document{
		"ingredients[0].amount": {Ingredients: []Ingredient{{Amount: &bad}}},
		"steps[0].time[0]":      {Steps: []Step{{Time: []Quantity{{Min: 3, Max: 2, Unit: "hour"}}}}},
		"yield":                 {Yield: &Quantity{Min: math.NaN()}},
		"ingredients[0].grams.max": {Ingredients: []Ingredient{{
			Grams: &Grams{Min: 1, Max: math.Inf(1)}}}},
	} {
		var out bytes.Buffer
		if err := WriteYAML(&out, doc); err == nil || !strings.Contains(err.Error(), name+": ") {
			t.Errorf("as yaml: %v does not name %s", err, name)
		}
		if err := WriteJSON(&out, doc); err == nil || !strings.Contains(err.Error(), name+": ") {
			t.Errorf("as json: %v does not name %s", err, name)
		}
		if out.Len() > 0 {
			t.Errorf("%s: wrote %q", name, out.String())
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestWriteReportsTheWriter(t *testing.T) {
	doc := &Document{Recipe: Version, Title: "Soup"}
	if err := WriteYAML(full{}, doc); err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("yaml: %v", err)
	}
	if err := WriteJSON(full{}, doc); err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("json: %v", err)
	}
}

func TestWriteLeavesTheDocumentAlone(t *testing.T) {
	doc := &Document{Recipe: Version, Title: "Soup\xff", Steps: []Step{{Text: "Stir."}}}
	var out bytes.Buffer
	if err := WriteJSON(&out, doc); err != nil {
		t.Fatal(err)
	}
	if doc.Title != "Soup\xff" || doc.Claims != nil || doc.Steps[0].Actions != nil {
		t.Errorf("changed to %+v", doc)
	}
	if !strings.Contains(out.String(), `"Soup`+"\uFFFD"+`"`) {
		t.Errorf("wrote %s", out.String())
	}
	byValue, err := json.Marshal(*doc)
	if err != nil {
		t.Fatal(err)
	}
	if string(byValue)+"\n" != out.String() {
		t.Errorf("json.Marshal gave %s", byValue)
	}
	var inYAML bytes.Buffer
	if err := WriteYAML(&inYAML, doc); err != nil {
		t.Fatal(err)
	}
	var node yaml.Node
	if err := node.Encode(doc); err != nil {
		t.Fatal(err)
	}
	again, err := yaml.Marshal(&node)
	if err != nil {
		t.Fatal(err)
	}
	var back Document
	if err := yaml.Unmarshal(again, &back); err != nil || back.Title != "Soup\uFFFD" {
		t.Errorf("through yaml.Marshal: %q, %v", back.Title, err)
	}
}

func TestOpen(t *testing.T) {
	d := &Document{Flags: []Flag{{Kind: AmountUnstated, Settled: "20 g"}, {Kind: AmountVague}, {Kind: HeardUnsure}}}
	open := d.Open()
	if len(open) != 2 || open[0].Kind != AmountVague || open[1].Kind != HeardUnsure {
		t.Errorf("got %+v", open)
	}
	for _, kind := range FlagKinds() {
		if !KnownFlagKind(kind) {
			t.Errorf("%q is not known", kind)
		}
	}
	if KnownFlagKind("amount-unstatd") || KnownFlagKind("") {
		t.Error("an unknown kind is known")
	}
}

func TestTimestamps(t *testing.T) {
	for text, at := range map[string]time.Duration{
		"00:00:00.000":  0,
		"00:03:07.000":  187 * time.Second,
		"01:00:00.250":  time.Hour + 250*time.Millisecond,
		"100:00:00.001": 100*time.Hour + time.Millisecond,
	} {
		if got := Timestamp(at); got != text {
			t.Errorf("Timestamp(%v) = %q, want %q", at, got, text)
		}
		if got, err := ParseTimestamp(text); err != nil || got != at {
			t.Errorf("ParseTimestamp(%q) = %v, %v", text, got, err)
		}
	}
	if got, err := ParseTimestamp("03:07.000"); err != nil || got != 187*time.Second {
		t.Errorf("without hours: %v, %v", got, err)
	}
	if got := Timestamp(-1); got != "" {
		t.Errorf("no time gives %q", got)
	}
	if got := Timestamp(1999 * time.Microsecond); got != "00:00:00.001" {
		t.Errorf("1.999 ms gives %q", got)
	}
	for _, text := range []string{"", "1:04", "00:60:00.000", "00:00:00", "-00:00:01.000", "9999999:00:00.000"} {
		if got, err := ParseTimestamp(text); err == nil {
			t.Errorf("ParseTimestamp(%q) = %v", text, got)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data, err := os.ReadFile("../testdata/schema/ok/full.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Read("full.yaml", data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWriteYAML(b *testing.B) {
	data, err := os.ReadFile("../testdata/schema/ok/full.yaml")
	if err != nil {
		b.Fatal(err)
	}
	doc, err := Read("full.yaml", data)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		var out bytes.Buffer
		if err := WriteYAML(&out, doc); err != nil {
			b.Fatal(err)
		}
	}
}
