package manuscript

import (
	"regexp"
	"strings"

	"tureen/planner/words"
)

// Line is a line of a recipe's text.
type Line struct {
	Number int    // from 1, in the text as it came
	Raw    string // without the blanks round it, and with what goes on below it in the same item
	Text   string // without marks and bullets, and not shouting; empty: nothing but marks
	Last   string // the last of the text's own lines that it is made of
	Bullet bool   // it is an item of a list
	Level  int    // of a heading that is marked as one: 1 the highest; 0: it is not marked
	Rule   bool   // a line of dashes, or nothing: what stood above is over
}

// plainSpaces makes blanks of all that look like one, of as many bytes, so that what is found keeps its place.
var plainSpaces = strings.NewReplacer("\u00a0", "  ", "\u2007", "   ", "\u2009", "   ", "\u202f", "   ",
	"\u200b", "   ", "\u2028", "\n  ", "\u000b", "\n", "\ufeff", "   ", "\t", " ", "\r\n", " \n", "\r", "\n")

// PlainSpaces has only blanks and lines' ends that all readers know, each in its place.
func PlainSpaces(text string) string { return plainSpaces.Replace(text) }

// flatRE are headings within a line.
var flatRE = regexp.MustCompile(`(?i)\s*\b(ingredients|you will need|method|directions|instructions)\s*:\s*`)

// unflattened gives a recipe whose line breaks were lost, as in a chat's field of one line, its headings back.
func unflattened(text string) string {
	if strings.Count(strings.TrimSpace(text), "\n") > 3 || len(flatRE.FindAllString(text, 3)) < 2 {
		return text
	}
	return flatRE.ReplaceAllString(text, "\n$1: ")
}

// bulletsApart gives each item of a list that was written along a line its own: "2 leeks • 80 g butter • salt".
// Every byte keeps its place.
func bulletsApart(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		for _, mark := range []string{"•", "·"} {
			if strings.Count(l, " "+mark+" ") > 1 {
				lines[i] = strings.ReplaceAll(l, " "+mark+" ", "\n"+mark+" ")
			}
		}
	}
	return strings.Join(lines, "\n")
}

// Lines are the lines of a text.
func Lines(text string) (out []Line) {
	raw := strings.Split(bulletsApart(unflattened(PlainSpaces(text))), "\n")
	item := false // an item of a list goes on where a line is indented
	for i := frontMatter(raw); i < len(raw); i++ {
		trimmed := strings.TrimSpace(raw[i])
		indented := strings.HasPrefix(raw[i], "  ") && trimmed != "" && !isBullet(trimmed) && !enumRE.MatchString(trimmed)
		if n := len(out); indented && item && n > 0 && len(out[n-1].Raw) < mostJoined {
			out[n-1].Join(Line{Raw: strings.Join(strings.Fields(trimmed), " "), Last: trimmed})
			continue
		}
		item = trimmed != "" && (isBullet(trimmed) || enumRE.MatchString(trimmed))
		if n := len(out); n > 0 && trimmed != "" && strings.Trim(trimmed, "=") == "" && out[n-1].Text != "" {
			out[n-1].Level = 1 // underlined
			continue
		}
		l := Line{Number: i + 1, Raw: strings.Join(strings.Fields(trimmed), " "), Last: trimmed, Bullet: isBullet(trimmed)}
		l.Rule = strings.Trim(plain(l.Raw), "-*_=~ ") == ""
		l.Text = Text(l.Raw)
		l.Level = len(l.Raw) - len(strings.TrimLeft(l.Raw, "#"))
		out = append(out, l)
	}
	return out
}

// Join lets a line go on with the next.
func (l *Line) Join(next Line) {
	l.Raw += " " + next.Raw
	l.Last, l.Text = next.Last, Text(l.Raw)
}

// mostJoined is about as long as an item of many lines grows, in bytes.
const mostJoined = 2000

// Width is how wide the lines of a text are that were broken where they were full; 0: they were not.
func Width(text string) int {
	widest, near, stops := 0, 0, 0
	lines := strings.Split(PlainSpaces(text), "\n")
	for _, l := range lines {
		l = strings.TrimSpace(l)
		widest = max(widest, len(l))
		if strings.HasSuffix(l, ".") {
			stops++
		}
	}
	for _, l := range lines {
		if l = strings.TrimSpace(l); len(l) > widest-15 && !strings.HasSuffix(l, ".") {
			near++
		}
	}
	if widest < 50 || widest > 110 || near < 2 || stops < 2 {
		return 0
	}
	return widest
}

// enumRE is the number that an item of a list begins with.
var enumRE = regexp.MustCompile(`^(?i)(?:(?:step\s+)?\d{1,2}\s*[.):]\s+|step\s+\d{1,2}\s*[|–-]?\s+)`)

// Unnumbered is a line without the number that it has in a list, and whether it had one.
func Unnumbered(text string) (string, bool) {
	at := enumRE.FindString(text)
	return text[len(at):], at != ""
}

func isBullet(text string) bool {
	for _, b := range bullets {
		if strings.HasPrefix(text, b) {
			return true
		}
	}
	return false
}

// frontMatter makes lines of what stands between two lines of dashes on top of a text, and says where the text begins.
func frontMatter(raw []string) int {
	for i, l := range raw {
		if l = strings.TrimSpace(l); l == "" {
			continue
		} else if l != "---" && l != "+++" {
			return 0
		}
		end := 0
		for k := i + 1; k < min(len(raw), i+60) && end == 0; k++ {
			if strings.TrimSpace(raw[k]) == l {
				end = k
			} else if key, _, ok := cutKey(raw[k]); ok && len(strings.Fields(key)) > 2 || !ok &&
				!strings.HasPrefix(strings.TrimSpace(raw[k]), "-") && strings.TrimSpace(raw[k]) != "" {
				return 0
			}
		}
		if end == 0 {
			return 0
		}
		for k := i; k <= end; k++ {
			raw[k] = frontLine(raw[k])
		}
		return i
	}
	return 0
}

func cutKey(line string) (key, value string, ok bool) {
	if key, value, ok = strings.Cut(line, ":"); !ok {
		key, value, ok = strings.Cut(line, " = ")
	}
	return strings.ReplaceAll(strings.TrimSpace(words.Small(key)), "_", " "), strings.Trim(value, ` "'`), ok
}

// frontLine is a line of front matter as people write it; empty where it says nothing of the dish.
func frontLine(line string) string {
	if strings.HasPrefix(strings.TrimSpace(line), "-") {
		return strings.Trim(line, "-+ ") // an item of a list, or the frame
	}
	key, value, _ := cutKey(line)
	switch {
	case titleKeys[key]:
		return value
	case frontKeys[key] || strings.HasSuffix(key, "time"):
		return strings.TrimSpace(words.Upper(key) + ": " + value)
	}
	return ""
}

var (
	titleKeys = words.Set("title name recipe dish")
	frontKeys = words.Set("servings serves serving yield yields makes portions covers prep preparation cook cooking " +
		"total ingredients directions method instructions steps")
)
