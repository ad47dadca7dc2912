package schema

import (
	"bytes"
	"os"
	"testing"
)

func FuzzQuantity(f *testing.F) {
	for _, s := range []string{
		"1 1/2 cups", "2-3 cloves", "2 cans (14 oz)", "overnight", "9 x 13 inch", "gas mark 4", "-18 C", "about 1½ Tablespoons or so",
		"2 8-inch cakes", "up to 3 days", "1 hour and 15 mins to 2 hours", "24 cookies", "half a dozen",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if q, err := ParseQuantity(text); err == nil {
			keepsSaying(t, q, asAmount)
			again, err := ParseQuantity(q.String())
			if err != nil || !again.Equal(q) {
				t.Fatalf("%q is written %q, which gives %+v, %v", text, q, again, err)
			}
		}
		if q, err := ParseYield(text); err == nil {
			keepsSaying(t, q, asYield)
			again, err := ParseYield(q.String())
			if err != nil || !again.Equal(q) {
				t.Fatalf("%q is written %q, which gives %+v, %v", text, q, again, err)
			}
		}
	})
}

func FuzzDocument(f *testing.F) {
	for _, folder := range []string{"../testdata/schema/ok", "../testdata/schema/err"} {
		for _, file := range inputs(f, folder) {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		problems := Validate("fuzz", data)
		docs, err := ReadAll("fuzz", data)
		if err != nil {
			if len(problems) == 0 {
				t.Fatalf("no problem in what cannot be read: %v", err)
			}
			return
		}
		var first, second, lines bytes.Buffer
		if err := WriteYAML(&first, docs...); err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
		back, err := ReadAll("written", first.Bytes())
		if err != nil {
			t.Fatalf("what was written cannot be read: %v\n%s", err, first.Bytes())
		}
		if err := WriteYAML(&second, back...); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("written twice:\n%s\n%s", first.Bytes(), second.Bytes())
		}
		if err := WriteJSON(&lines, docs...); err != nil {
			t.Fatal(err)
		}
		back, err = ReadAll("lines", lines.Bytes())
		if err != nil {
			t.Fatalf("what was written cannot be read: %v\n%s", err, lines.Bytes())
		}
		second.Reset()
		if err := WriteYAML(&second, back...); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("through json:\n%s\n%s", first.Bytes(), second.Bytes())
		}
	})
}
