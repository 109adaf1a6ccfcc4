package manuscript

import (
	"regexp"
	"strings"
	"unicode"

	"tureen/planner/words"
)

// bullets are what an item of a list begins with.
var bullets = []string{"- ", "* ", "• ", "· ", "▪ ", "– ", "+ ", "‣ ", "◦ ", "☐ ", "□ "}

var (
	// stampRE is when a message was sent in a chat, and who sent it.
	stampRE = regexp.MustCompile(`^\s*\[?(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4},? )?\d{1,2}:\d{2}(?::\d{2})?` +
		`(?: ?[AaPp][Mm])?\]?(?: -)? [\p{L}][\p{L} .'-]{0,30}: `)
	pictureRE = regexp.MustCompile(`!\[[^\]]*\]\([^)]*\)`)
	linkRE    = regexp.MustCompile(`\[([^\]]+)\]\(([^)]*)\)`)
	boxRE     = regexp.MustCompile(`^([-*+] )\[[ xX]?\] `)
	stressRE  = regexp.MustCompile(`(^|[\s(])[_*]{1,3}([^_*\s][^_*]*)[_*]{1,3}($|[\s).,;:!?])`)
)

// plain takes Markdown's marks, and a chat's stamps, off a line.
func plain(line string) string {
	line = stampRE.ReplaceAllString(line, "")
	line = strings.TrimLeft(line, "#> ")
	line = boxRE.ReplaceAllString(line, "$1")
	line = linkRE.ReplaceAllString(pictureRE.ReplaceAllString(line, ""), "$1")
	line = strings.NewReplacer("**", "", "__", "", "`", "", `\~`, "~", `\*`, "*", `\_`, "_", `\#`,
		"#", `\.`, ".", `\-`, "-").Replace(line)
	return strings.TrimSpace(stressRE.ReplaceAllString(line, "$1$2$3"))
}

// Text is what a line says, without marks and bullets, and not shouting.
func Text(raw string) string {
	text := sentenceCase(plain(raw))
	for _, b := range bullets {
		text = strings.TrimPrefix(text, b)
	}
	first := true
	var out strings.Builder
	for i, c := range text {
		switch {
		case !drawn(c):
			out.WriteRune(c)
			first = first && unicode.IsSpace(c)
		case first || strings.TrimFunc(text[i:], func(c rune) bool { return drawn(c) || c == ' ' }) == "":
		default: // a picture in the midst begins something else
			out.WriteString("| ")
			first = true
		}
	}
	return strings.Trim(strings.ReplaceAll(out.String(), "| |", "|"), " |")
}

// drawn reports whether a sign is a picture, or part of one.
func drawn(c rune) bool {
	return unicode.Is(unicode.So, c) && c != '°' && c != '©' || unicode.Is(unicode.Mn, c) || c == 0x200d ||
		c >= 0x1f3fb && c <= 0x1f3ff
}

// sentenceCase brings shouted text down, so that it reads like other text.
func sentenceCase(text string) string {
	letters, upper := 0, 0
	for _, c := range text {
		if unicode.IsLetter(c) {
			letters++
			if unicode.IsUpper(c) {
				upper++
			}
		}
	}
	if letters < 4 || upper*10 < letters*9 {
		return text
	}
	out := []rune(words.Small(text))
	start := true
	for i, c := range out {
		if start && (unicode.IsLetter(c) || unicode.IsDigit(c)) {
			out[i] = unicode.ToUpper(c)
			start = false
		}
		if c == '.' || c == '!' || c == '?' {
			start = true
		}
	}
	return string(out)
}
