package extract

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"golang.org/x/text/encoding/charmap"

	"quern/internal/derive"
	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/transcript"
	"quern/schema"
)

// tortureEnv names the environment variable that asks for the long form of the
// torture run: how many damaged transcripts to read. The long form also reads
// whole megabytes of one thing and tells how long the slowest took. With _KEEP
// added to the name it is a folder for the transcripts that failed.
const tortureEnv = "QUERN_TORTURE"

// shortTorture is how many damaged transcripts the short form reads.
const shortTorture = 300

// A mutation damages a transcript in one way, or makes another of it.
type mutation struct {
	name string
	do   func(r *rand.Rand, text string) string
}

// mutations are all the ways in which a transcript is damaged.
var mutations = []mutation{
	{"cut at the end", func(r *rand.Rand, s string) string { return s[:r.IntN(len(s)+1)] }},
	{"cut at the beginning", func(r *rand.Rand, s string) string { return s[r.IntN(len(s)+1):] }},
	{"a piece cut out", cutOut},
	{"bytes flipped", flipBits},
	{"bytes put in", anyBytes},
	{"a piece in another encoding", mixEncodings},
	{"another encoding throughout", wholeEncoding},
	{"cues shuffled", shuffleCues},
	{"cues twice and thrice", repeatCues},
	{"cues overlapping", overlapCues},
	{"cues all at one time", func(r *rand.Rand, s string) string { return retime(s, func(string) string { return "0:07" }) }},
	{"times missing", func(r *rand.Rand, s string) string {
		return retime(s, func(old string) string {
			if r.IntN(3) > 0 {
				return old
			}
			return ""
		})
	}},
	{"times negative", func(r *rand.Rand, s string) string { return retime(s, func(old string) string { return "-" + old }) }},
	{"times huge", func(r *rand.Rand, s string) string {
		huge := []string{"99:59:59.999", "999999:00", "9223372036854775807:00", "9999999999999999999999:59:59,999", "0:99999999999", "2562047:47:16.854"}
		return retime(s, func(old string) string {
			if r.IntN(3) > 0 {
				return old
			}
			return huge[r.IntN(len(huge))]
		})
	}},
	{"times that run backwards", func(r *rand.Rand, s string) string {
		n := strings.Count(s, ":") + 1
		return retime(s, func(string) string { n--; return fmt.Sprintf("%d:%02d", n/60, n%60) })
	}},
	{"a long word", func(r *rand.Rand, s string) string {
		return putIn(r, s, strings.Repeat(pick(r, "a", "é", "ü", "1", "½", "-", "'", "."), 1+r.IntN(20_000)))
	}},
	{"zero bytes", func(r *rand.Rand, s string) string { return sprinkle(r, s, 1+r.IntN(30), "\x00") }},
	{"control characters", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(20), "\x1b", "\x07", "\x7f", "\u0085", "\u2028", "\u2029", "\v", "\f")
	}},
	{"emoji", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(80), "🍳", "🧈", "👩🏽‍🍳", " 🥣 ", "1️⃣", "🇳🇿", "\u200d")
	}},
	{"right-to-left", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(60), " כוס סוכר ", " ملعقة زبدة ", "\u202e", "\u200f", "\u2067", "\u2069")
	}},
	{"unseen characters", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(80), "\u00a0", "\u00ad", "\u200b", "\ufeff", "\u2060", "\u0301", "\u202f")
	}},
	{"another language", otherLanguage},
	{"a song", song},
	{"a list of numbers", numberList},
	{"numbers made odd", oddNumbers},
	{"words shuffled", shuffleWords},
	{"words dropped", func(r *rand.Rand, s string) string {
		return eachWord(s, func(w string) string {
			if r.IntN(4) == 0 {
				return ""
			}
			return w
		})
	}},
	{"words of the trade piled up", pileUp},
	{"marks everywhere", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(200), ".", "...", ",", ";", "!?", "\"", "(", ")", "[", "]", "—", "'", "/", "&", "%", "#", "*")
	}},
	{"markup", func(r *rand.Rand, s string) string {
		return sprinkle(r, s, 1+r.IntN(60), "<i>", "</i>", "<v Ann>", "<00:00:01.000>", "&amp;", "&#x0;", "&#1114112;", "{\\an8}", "<!--", "]]>", "<c.x>", "-->", "{y:i}")
	}},
	{"line ends mixed", func(r *rand.Rand, s string) string {
		return replaceEach(s, "\n", func() string { return pick(r, "\n", "\r\n", "\r", "\n\n", "", " ") })
	}},
	{"no line ends", func(r *rand.Rand, s string) string { return strings.ReplaceAll(s, "\n", " ") }},
	{"heads of other formats", func(r *rand.Rand, s string) string {
		return pick(r, "WEBVTT\n\n", "1\n00:00:00,000 --> 00:00:01,000\n", "<tt xmlns=\"http://www.w3.org/ns/ttml\"><body><div><p begin=\"1s\">", "---\ntitle: x\n---\n", "# Heading\n\n", "recipe: 1\n", "\ufeff", "{\"a\":") + s
	}},
	{"capitals", func(r *rand.Rand, s string) string { return strings.ToUpper(s) }},
}

// cutAt gives the first size bytes of text, or all of it.
func cutAt(text string, size int) string { return text[:min(len(text), size)] }

func pick(r *rand.Rand, from ...string) string { return from[r.IntN(len(from))] }

func putIn(r *rand.Rand, s, what string) string {
	at := r.IntN(len(s) + 1)
	return s[:at] + what + s[at:]
}

func sprinkle(r *rand.Rand, s string, times int, what ...string) string {
	at := make([]int, times)
	for i := range at {
		at[i] = r.IntN(len(s) + 1)
	}
	sort.Ints(at)
	var b strings.Builder
	last := 0
	for _, i := range at {
		b.WriteString(s[last:i] + pick(r, what...))
		last = i
	}
	return b.String() + s[last:]
}

func replaceEach(s, old string, by func() string) string {
	var b strings.Builder
	parts := strings.Split(s, old)
	for i, p := range parts {
		if i > 0 {
			b.WriteString(by())
		}
		b.WriteString(p)
	}
	return b.String()
}

func cutOut(r *rand.Rand, s string) string {
	a, b := r.IntN(len(s)+1), r.IntN(len(s)+1)
	return s[:min(a, b)] + s[max(a, b):]
}

func flipBits(r *rand.Rand, s string) string {
	b := []byte(s)
	for range 1 + r.IntN(40) {
		if len(b) > 0 {
			b[r.IntN(len(b))] ^= 1 << r.IntN(8)
		}
	}
	return string(b)
}

func anyBytes(r *rand.Rand, s string) string {
	b := make([]byte, 1+r.IntN(60))
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return putIn(r, s, string(b))
}

// utf16Text writes text as UTF-16 without a byte order mark.
func utf16Text(s string, order binary.AppendByteOrder) string {
	var b []byte
	for _, unit := range utf16.Encode([]rune(s)) {
		b = order.AppendUint16(b, unit)
	}
	return string(b)
}

func mixEncodings(r *rand.Rand, s string) string {
	a, b := r.IntN(len(s)+1), r.IntN(len(s)+1)
	a, b = min(a, b), max(a, b)
	piece := strings.NewReplacer("a", "à", "e", "é", "'", "’", "-", "—").Replace(s[a:b])
	switch r.IntN(3) {
	case 0:
		piece = utf16Text(piece, binary.LittleEndian)
	case 1:
		piece = utf16Text(piece, binary.BigEndian)
	default:
		if narrow, err := charmap.Windows1252.NewEncoder().String(piece); err == nil {
			piece = narrow
		}
	}
	return s[:a] + piece + s[b:]
}

func wholeEncoding(r *rand.Rand, s string) string {
	switch r.IntN(5) {
	case 0:
		return "\xff\xfe" + utf16Text(s, binary.LittleEndian)
	case 1:
		return "\xfe\xff" + utf16Text(s, binary.BigEndian)
	case 2:
		return utf16Text(s, binary.LittleEndian) // no byte order mark
	case 3:
		return "\xff\xfe" + s // a byte order mark that isn't true
	default:
		return "\xef\xbb\xbf" + s
	}
}

// blocks cuts a transcript at its blank lines.
func blocks(s string) []string { return blankLine.Split(s, -1) }

func shuffleCues(r *rand.Rand, s string) string {
	list := blocks(s)
	r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	return strings.Join(list, "\n\n")
}

func repeatCues(r *rand.Rand, s string) string {
	var out []string
	for _, c := range blocks(s) {
		for range 1 + r.IntN(3) {
			out = append(out, c)
		}
	}
	return strings.Join(out, "\n\n")
}

// timeText matches a time of any style.
var timeText = regexp.MustCompile(`\d+(:\d\d)+([.,]\d+)?`)

func retime(s string, by func(old string) string) string {
	return timeText.ReplaceAllStringFunc(s, by)
}

func overlapCues(r *rand.Rand, s string) string {
	return retime(s, func(string) string {
		at := r.IntN(600)
		return fmt.Sprintf("00:%02d:%02d.%03d", at/60, at%60, r.IntN(1000))
	})
}

// spoken matches a word in a transcript that is no part of a time or a mark.
var spoken = regexp.MustCompile(`[A-Za-z][A-Za-z'’-]*`)

func eachWord(s string, by func(word string) string) string {
	return spoken.ReplaceAllStringFunc(s, by)
}

// otherLanguage puts invented talk in other languages in the place of words.
func otherLanguage(r *rand.Rand, s string) string {
	talk := strings.Fields(pick(r,
		"Heute backen wir Brötchen, zweihundert Gramm Mehl und ein Löffel Öl, dann kneten wir den Teig und lassen ihn ruhen.",
		"Aujourd'hui on prépare une tarte, deux cents grammes de farine, un œuf et une pincée de sel, puis on laisse reposer.",
		"今日は パン を 焼きます 小麦粉 二百 グラム と 塩 を 少々 入れて よく 混ぜます",
		"сегодня печём хлеб двести граммов муки и щепотка соли потом замешиваем тесто",
		"היום אופים לחם שתי כוסות קמח וקמצוץ מלח ואז לשים את הבצק",
		"आज हम रोटी बनाएँगे दो कप आटा और थोड़ा नमक फिर आटा गूँधते हैं"))
	i := r.IntN(len(talk))
	some := 1 + r.IntN(4)
	return eachWord(s, func(w string) string {
		if r.IntN(some) > 0 {
			return w
		}
		i++
		return talk[i%len(talk)]
	})
}

func song(r *rand.Rand, s string) string {
	lines := []string{"♪ stir it round and round again ♪", "♪ a cup of sun, a pinch of rain ♪", "♪ la la la, butter in the pan ♪", "♪ two by two and ten by ten ♪"}
	i := 0
	return replaceEach(s, "\n\n", func() string {
		i++
		return " " + lines[i%len(lines)] + pick(r, "\n\n", "\n", " ")
	})
}

func numberList(r *rand.Rand, s string) string {
	all := r.IntN(2) == 0
	return eachWord(s, func(w string) string {
		if !all && r.IntN(3) > 0 {
			return w
		}
		return pick(r, "1", "2 1/2", "one", "hundred", "and", "a half", "3.5", "twelve", "0", "point", "thousand", "1,000", "thirds", "½", "⅞", "dozen", "minus", "-4", "to", "or")
	})
}

func oddNumbers(r *rand.Rand, s string) string {
	odd := []string{"1e309", "0/0", "1/0", "½½", "99999999999999999999", "0x10", "1.2.3", "-1", "1,00,000", "٣", "Ⅳ", "1_000", "NaN", "Inf", "0.0000000001", "1//2", "2 1/2 1/2", "1e-400", "three hundred thousand million billion"}
	return regexp.MustCompile(`\b(\d+|one|two|three|four|half|ten|twenty)\b`).ReplaceAllStringFunc(s, func(old string) string {
		if r.IntN(3) == 0 {
			return odd[r.IntN(len(odd))]
		}
		return old
	})
}

func shuffleWords(r *rand.Rand, s string) string {
	words := spoken.FindAllString(s, -1)
	r.Shuffle(len(words), func(i, j int) { words[i], words[j] = words[j], words[i] })
	i := 0
	return eachWord(s, func(string) string { i++; return words[i-1] })
}

// pileUp puts words that passes look for in the place of others, so that
// rules meet where no talk would let them.
func pileUp(r *rand.Rand, s string) string {
	some := 1 + r.IntN(6)
	return eachWord(s, func(w string) string {
		if r.IntN(some) > 0 {
			return w
		}
		return pick(r, "cup", "cups", "of", "butter", "flour", "or", "and", "a", "half", "no", "not", "instead", "actually", "forgot", "minutes", "degrees", "until", "golden", "sauce", "filling",
			"dough", "makes", "twelve", "servings", "fridge", "freezer", "days", "calories", "per", "protein", "the", "other", "way", "wait", "sorry", "oven", "350", "stir", "chop", "eggs", "each", "double", "third",
			"if", "you", "can", "use", "to", "with", "without", "for", "another", "recipe", "gluten-free", "optional", "bake", "it", "that", "rest", "remaining", "grams", "tablespoon", "pinch", "some")
	})
}

// tortured are the giants: transcripts of one thing, about size bytes long, and
// two of cueCount cues.
func tortured(t testing.TB, size, cueCount int) (names []string, texts map[string]string) {
	t.Helper()
	texts = map[string]string{}
	add := func(name, text string) { names, texts[name] = append(names, name), text }
	fill := func(piece string) string { return strings.Repeat(piece, size/len(piece)+1)[:size] }
	list, read := talks(t)
	var whole strings.Builder
	for whole.Len() < size {
		for _, name := range list {
			whole.WriteString(read[name] + "\n\n")
		}
	}
	// The clock goes on, as in a recording that long.
	seconds := 0
	long := regexp.MustCompile(`\[\d+:\d\d\]`).ReplaceAllStringFunc(whole.String(), func(string) string {
		seconds += 12
		return fmt.Sprintf("[%d:%02d]", seconds/60, seconds%60)
	})
	for _, style := range styles {
		text := restyle(long, style)
		add("talks end to end in "+style, cutAt(text, size))
	}
	add("talks end to end without a mark or a time", cutAt(strings.Join(unmarked(strings.Fields(restyle(long, "plain"))), " "), size))
	add("one word", "[0:01] mix "+strings.Repeat("a", size)+" well\n")
	add("one word of accents", "[0:01] mix "+strings.Repeat("e\u0301", size/3)+" well\n")
	add("zero bytes", strings.Repeat("\x00", size))
	add("emoji", "[0:01] "+fill("🍳 "))
	add("right-to-left", "[0:01] "+strings.Repeat("כוס סוכר ", size/17))
	add("blank lines", "[0:01] a\n"+strings.Repeat("\n", size))
	add("brackets open", "[0:01] "+strings.Repeat("[", size))
	add("tags open", "WEBVTT\n\n00:00.000 --> 00:01.000\n"+strings.Repeat("<i>", size/3))
	add("elements open", "<tt>"+strings.Repeat("<p>", size/3))
	for _, piece := range []string{"one ", "1 ", "1/2 ", "a half ", "two cups ", "two cups of flour ", "two cups of flour and ", "butter ", "butter or ", "butter, ", "butter. ", "and ", "or ", "stir ", "stir the butter ", "stir it. ",
		"until golden ", "no ", "actually ", "no, three cups. ", "a cup and a half and a half ", "twenty five ", "hundred thousand ", "ten minutes ", "for ten minutes ", "350 degrees ", "nine by thirteen ", "for the sauce ",
		"for the sauce, butter. ", "the other way ", "instead of butter ", "use butter instead. ", "it makes twelve. ", "keeps for three days ", "in the fridge ", "200 calories ", "200 calories, ten grams of protein. ",
		"I forgot the salt. ", "the rest of the butter. ", "another cup of butter. ", "half the butter. ", "twice as much butter as flour. ", "one part butter to two parts flour. ", "some blorple. ", "two cups of blorple ",
		"this is gluten-free. ", "don't burn it. ", "if you can, ", "\"", "( ", "... ", "-", "'", "a ", "eggs eggs ", "I put in two cups of the butter that I bought last week, and then I "} {
		add("only "+strconv.Quote(piece), "[0:01] "+fill(piece))
	}
	for _, pattern := range hostile {
		add("again "+strconv.Quote(pattern), "[0:01] "+numbered(pattern, size))
	}
	add("a word a line", "[0:01] "+fill("butter\n"))
	add("a word a paragraph", "[0:01] "+fill("stir\n\n"))
	add("a cue of one time for each word", fill("[0:02] butter\n\n"))
	add("words of every pass at random", "[0:01] "+func() string {
		r := rand.New(rand.NewPCG(1, 1))
		var b strings.Builder
		for b.Len() < size {
			b.WriteString(pick(r, everyPass...) + pick(r, " ", " ", " ", ". ", ", "))
		}
		return b.String()
	}())
	add("a list of numbers", "[0:01] "+func() string {
		var b strings.Builder
		for i := 0; b.Len() < size; i++ {
			fmt.Fprintf(&b, "%d ", i*7919%100003)
		}
		return b.String()
	}())
	add("unlike foods", "[0:01] "+func() string {
		var b strings.Builder
		for i := 0; b.Len() < size; i++ {
			fmt.Fprintf(&b, "add %d cups of blorp%dle. ", i%9+1, i)
		}
		return b.String()
	}())
	cue := func(i int, words string) string {
		return fmt.Sprintf("%d\n%s --> %s\n%s\n\n", i+1, clockTime(float64(i), ","), clockTime(float64(i+1), ","), words)
	}
	many := func(words string) string {
		var b strings.Builder
		for i := range cueCount {
			b.WriteString(cue(i, words))
		}
		return b.String()
	}
	add(fmt.Sprintf("%d cues of a word", cueCount), many("butter"))
	add(fmt.Sprintf("%d cues without words, and one with", cueCount), many("")+cue(cueCount, "mix"))
	return names, texts
}

// hostile are sentences of every kind that a pass, a flag or a caution looks for,
// said over and over: those with a # about something new each time, those with a
// % with another number.
var hostile = []string{
	"The slow way, stir it ten minutes. The quick way, boil it. ", "The slow# way, stir it ten minutes. The quick# way, boil it. ",
	"Or you can do it in the oven at 1%0 degrees. If you use the air fryer, cook it for % minutes. ",
	"Add either butter or oil. You want cream or milk. ", "butter or oil or lard or margarine or ghee or ", "Not butter but oil. I use oil, not butter. ",
	"For the sauce, butter. For the dough, flour. ", "For the sauce#, two cups of butter. Stir the sauce#. ",
	"Add two cups of flour, no, three cups. ", "Actually, make that % cups of flour. Sorry, I meant sugar. ",
	"You can use oil instead of butter. If you don't have oil, use butter. ", "You can use oil# instead of butter. Swap the butter for blorple#. ",
	"Add nuts if you like. The raisins are optional. Leave out the nuts if you want. ", "You could add cinnamon. You could also add nutmeg. ",
	"It keeps for % days in the fridge. Freeze it for % months. ", "Add % cups of rice#. The stew# keeps % days at room temperature. ",
	"For the filling#, add % cups of rice. The filling# keeps % days on the counter. ",
	"It makes # cookies. That serves %. ", "This is gluten-free. It's vegan and dairy-free, so it's nut-free. ",
	"Bake it at 3%0 degrees. Bake it for # minutes. Don't add the butter. Add # grams of butter. ",
	"flour, sugar, butter, eggs, milk, salt, ", "% cups of flour, 1%0 grams of sugar, % eggs, a pinch of salt, ", "two cups of blorple# ", "350 degrees 180 C 375 F gas mark 4 ",
	"Today we are making butter cake. This is my chocolate cookies recipe. ", "Today we're making blorple# cake. Welcome to my zorp# cookies. ",
	"Now for the second recipe, banana bread. Next up, tomato soup. ", "Add half the butter. Add the rest of the butter. ",
	"I forgot the salt. Oh, and before that, add the sugar. ", "So again, that's two cups of flour, three eggs and a pinch of salt. ",
	"Be careful, don't burn it. Watch out for the hot oil. ", "Add the flower and the bacon powder, and the time leaves. ",
	"Cook it until golden. Simmer until thick and bubbling and reduced by half. ", "In a large bowl, whisk it with a fork. In the pan#, stir. ",
	"a splash of milk, a knob of butter, a glug of oil. ", "Cook the chicken. Wash the chicken. Leave the rice out. ",
	"Add % pounds of chicken. Bake the chicken for # minutes at 1%0 degrees. ", "Add % eggs. Stir it. Fry the eggs for % minutes. Add 1% eggs again. ",
	"Add % cups of olive oil. Stir it. Fry the olive oil for % minutes. ", "Add % blorp# pounds of salmon. It keeps % days in the fridge. ",
	"Stir it. Butter. The quick way, boil it. For the sauce, add milk. It keeps three days. No, four. Or use oil instead. ", "bake ", "add ", "it ", "way ", "instead ", "optional ", "keeps ",
}

// everyPass are words that some pass looks for each.
var everyPass = strings.Fields("the a of and stir add butter flour sugar egg eggs two three cups minutes oven bake way quick slow sauce for it instead or until golden keeps fridge no actually makes serves gluten-free optional if you like degrees 350 about then rest half")

// numbered repeats a sentence up to a size, with the number of each time where
// its # stands and a figure where its % does.
func numbered(pattern string, size int) string {
	var b strings.Builder
	for i := 1; b.Len() < size; i++ {
		b.WriteString(strings.NewReplacer("#", strconv.Itoa(i), "%", strconv.Itoa(i%9+1)).Replace(pattern))
	}
	return cutAt(b.String(), size)
}

// tortureRun is what reading one transcript came to.
type tortureRun struct {
	name   string
	bytes  int
	took   time.Duration // to the written document
	docs   int
	failed string // what the reader said, "" where it read
}

// torture reads a transcript through to the written document and wants a
// document or one clear error, and every fact grounded in words of the input.
func torture(t *testing.T, name string, data []byte) (res tortureRun) {
	t.Helper()
	res = tortureRun{name: name, bytes: len(data)}
	fail := func(format string, args ...any) {
		t.Errorf("%s: %s%s", name, fmt.Sprintf(format, args...), keepTortured(name, data))
	}
	defer func() {
		if r := recover(); r != nil {
			fail("panic: %v\n%s", r, debug.Stack())
		}
	}()
	begin := time.Now()
	n, err := transcript.Parse("talk", data)
	if err != nil {
		res.took, res.failed = time.Since(begin), err.Error()
		var told *transcript.Error
		switch {
		case !errors.As(err, &told):
			fail("the error is no *transcript.Error: %v", err)
		case !strings.HasPrefix(res.failed, "talk:") || strings.ContainsAny(res.failed, "\r\n\x00") || len(res.failed) > 400:
			fail("the error is not one clear line: %q", res.failed)
		}
		return res
	}
	docs := Extract(n)
	for _, doc := range docs {
		derive.Apply(doc, derive.Options{})
	}
	var out bytes.Buffer
	err = schema.WriteYAML(&out, docs...)
	res.took, res.docs = time.Since(begin), len(docs)
	switch {
	case err != nil:
		fail("%v", err)
	case len(docs) == 0:
		fail("neither a document nor an error")
	case out.Len() <= 4<<20: // a longer one may be beyond what is read
		if back, err := schema.ReadAll("document", out.Bytes()); err != nil {
			fail("the document doesn't read back: %v", err)
		} else if len(back) != len(docs) {
			fail("%d documents read back as %d", len(docs), len(back))
		}
	}
	bad := unsaid(n, docs)
	if len(data) <= 1<<16 {
		bad = slices.DeleteFunc(ungrounded(n, docs), impliedNumber)
	}
	for i, b := range bad {
		if i == 5 {
			fail("and %d more", len(bad)-i)
			break
		}
		fail("%s", b)
	}
	return res
}

// unlikeNumber matches what ungrounded says of an amount, a yield or a size.
var unlikeNumber = regexp.MustCompile(`(?:: (?:about )?\S.*, but the quotes tell no (\S+): |^macros: (\S+) isn't in )(.*)`)

// impliedNumber tells the figures whose number is in a word that ungrounded
// doesn't read by itself: "teaspoon of salt" and "gram and a half of fat", whose
// article was lost, "a third" at the end of what was said, "dozen".
func impliedNumber(bad string) bool {
	m := unlikeNumber.FindStringSubmatch(bad)
	if m == nil {
		return false
	}
	number := m[1] + m[2]
	toks := language.Words(m[3])
	lex := lexicon.Load()
	ids := lex.IDs(toks)
	for i, tok := range toks {
		one := 0.0 // what a measure by itself tells
		if _, n := lex.UnitAt(ids, i); n > 0 && !strings.HasSuffix(toks[i+n-1].Norm, "s") {
			f, _ := language.AndFraction(toks, i+n)
			one = 1 + f
		}
		switch number {
		case strconv.FormatFloat(one, 'g', -1, 64):
			return true
		case "0.3333333333333333":
			if tok.Norm == "third" {
				return true
			}
		case "12":
			if tok.Norm == "dozen" {
				return true
			}
		}
	}
	return false
}

// unsaid lists the quotes of documents that are no run of words at their
// moment, as ungrounded does, in time that grows with the talk alone.
func unsaid(n *transcript.Narration, docs []*schema.Document) []string {
	var b strings.Builder
	at := map[string][]int{} // where in the text words of a moment begin
	for i := range n.Words {
		if i > 0 {
			b.WriteByte(' ')
		}
		moment := schema.Timestamp(n.Words[i].At)
		at[moment] = append(at[moment], b.Len())
		b.WriteString(n.Words[i].Text)
	}
	text := b.String() + " "
	known := map[schema.Said]bool{}
	var bad []string
	for _, doc := range docs {
		everySaid(doc, func(path string, s schema.Said) {
			if known[s] {
				return
			}
			known[s] = true
			for _, from := range at[s.At] {
				if s.Quote != "" && strings.HasPrefix(text[from:], s.Quote) && text[from+len(s.Quote)] == ' ' {
					return
				}
			}
			bad = append(bad, fmt.Sprintf("%s: nobody says %.100q at %q", path, s.Quote, s.At))
		})
	}
	return bad
}

// keepTortured keeps a transcript that failed for a closer look, where a folder
// is named for it, and tells its name.
func keepTortured(name string, data []byte) string {
	folder := os.Getenv(tortureEnv + "_KEEP")
	if folder == "" {
		return ""
	}
	file := filepath.Join(folder, strings.Trim(regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(name, "-"), "-"))
	if err := os.WriteFile(file, data, 0o600); err != nil {
		return "\n" + err.Error()
	}
	return "\nkept as " + file
}

// Damaged transcripts of every style, one seed each, and transcripts of one
// thing: none makes the program panic, each gives a document or one clear
// error, and no fact stands in a document whose words nobody said.
func TestTorture(t *testing.T) {
	damaged, size, cueCount, long := shortTorture, 24<<10, 2_000, false
	if testing.Short() {
		damaged, size = shortTorture/5, 6<<10
	}
	if text := os.Getenv(tortureEnv); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 {
			t.Fatalf("%s=%q: want how many damaged transcripts to read, for example 10000", tortureEnv, text)
		}
		damaged, size, cueCount, long = n, 1_000_000, 200_000, true
	}
	list, texts := talks(t)
	var runs []tortureRun
	for seed := range damaged {
		t.Run(strconv.Itoa(seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(uint64(seed), 0))
			talk, style := list[r.IntN(len(list))], pick(r, styles...)
			m := mutations[seed%len(mutations)]
			name := fmt.Sprintf("%d: %s in %s, %s", seed, talk, style, m.name)
			text := m.do(r, restyle(texts[talk], style))
			for r.IntN(3) == 0 {
				more := mutations[r.IntN(len(mutations))]
				name += ", " + more.name
				text = more.do(r, text)
			}
			runs = append(runs, torture(t, name, []byte(text)))
		})
	}
	names, giants := tortured(t, size, cueCount)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			runs = append(runs, torture(t, name, []byte(giants[name])))
		})
	}
	if long {
		t.Log(tortureReport(runs))
	}
}

// tortureReport tells how a run went: how many gave a document, and the
// slowest.
func tortureReport(runs []tortureRun) string {
	read, slow := 0, 0
	for _, r := range runs {
		if r.failed == "" {
			read++
		}
		if r.bytes <= 1_100_000 && r.took > 2*time.Second {
			slow++
		}
	}
	sort.SliceStable(runs, func(i, j int) bool { return runs[i].took > runs[j].took })
	var b strings.Builder
	fmt.Fprintf(&b, "%d transcripts: %d gave documents, %d one error each; %d of about 1 MB or less took over 2 s; the slowest:\n", len(runs), read, len(runs)-read, slow)
	for _, r := range runs[:min(len(runs), 25)] {
		fmt.Fprintf(&b, "%8.3f s %9d bytes  %d documents  %s\n", r.took.Seconds(), r.bytes, r.docs, r.name)
	}
	return b.String()
}
