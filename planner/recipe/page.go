package recipe

import (
	"strconv"
	"strings"
	"unicode"

	"tureen/planner/manuscript"
	"tureen/planner/page"
	"tureen/planner/remark"
	"tureen/planner/words"
)

// MaxPage is the largest page or data file that is read, in bytes.
const MaxPage = 3_000_000

// ReadFile reads a recipe from a file's contents: schema.org data (JSON-LD), a page with it or with microdata or
// RDFa, or text. The error is as [Read]'s. It opens nothing and follows no address.
func ReadFile(data []byte) (*Reading, error) {
	text := strings.TrimLeftFunc(strings.TrimPrefix(string(data), "\ufeff"), unicode.IsSpace)
	switch {
	case len(data) > MaxPage:
		return nil, Refuse("This file is too long for a recipe.",
			"Save the page without its pictures, or paste the recipe's text.")
	case page.IsData(text):
		found, err := page.Find(text)
		if err != nil {
			return nil, err
		}
		return fromPage(found)
	case page.IsHTML(text):
		return readPage(text)
	case IsOwnLine(text):
		r, _, err := ReadLine(text)
		if err != nil {
			if read, bad := Read(text); bad == nil {
				return read, nil // Our soup: take 1 kg carrots …
			}
		}
		return r, err
	}
	return Read(text)
}

// readPage reads a page's JSON-LD, else its microdata or RDFa, else its text.
func readPage(text string) (*Reading, error) {
	found, err := page.Find(text)
	if err == nil {
		r, bad := fromPage(found)
		if bad == nil {
			return r, nil
		}
		err = bad
	}
	if r, ok := textOfPage(text); ok {
		return r, nil
	}
	return nil, err
}

// fromPage reads a recipe that a page's data holds.
func fromPage(p *page.Recipe) (*Reading, error) {
	all := p.Name + "\n" + strings.Join(p.Yields, " ")
	for _, m := range p.Method {
		all += "\n" + m.Text
	}
	all += "\n" + strings.Join(p.Lines, "\n")
	if letters := manuscript.ForeignLetters(all); letters != "" {
		return nil, Refuse("This is written in "+letters+", and I read English only.", inEnglish)
	}
	t := textReader{r: &Reading{Usage: usageOf(all)}}
	t.r.Title = words.Cut(strings.Join(strings.Fields(p.Name), " "), 70)
	if t.r.Title == "" {
		t.r.Title = unnamed
	}
	if p.Broken != "" {
		t.skipped(p.Broken)
	}
	t.dataYield(p.Yields)
	for _, c := range []struct{ key, what, text string }{{"prepTime", "p", p.Prep}, {"cookTime", "c", p.Cook},
		{"totalTime", "t", p.Total}} {
		if c.text == "" {
			continue
		}
		d, err := page.ParseISODuration(c.text)
		if err != nil {
			t.skipped(c.key + ": " + words.Cut(c.text, 40))
			continue
		}
		t.clock(c.what, d)
	}
	for _, line := range p.Lines {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		if words.Begins(strings.TrimLeft(words.Small(line), "*( "),
			[]string{"see note", "see recipe note", "note:", "notes:"}) {
			t.skipped(line)
			continue
		}
		if err := t.ingredient(line, Place{Text: line}); err != nil {
			if len(p.Lines) < 3 {
				return nil, err
			}
			t.skipped("This line of the ingredients was skipped: " + strconv.Quote(words.Cut(line, 60)) +
				" (" + err.Error() + ").")
		}
	}
	for _, m := range p.Method {
		t.section = partName(m.Section)
		told := m.Step && toldRE.MatchString(m.Text)
		for _, line := range strings.Split(m.Text, "\n") {
			if line = strings.TrimSpace(line); line == "" || strings.Trim(line, ".") == "" {
				continue
			}
			if told {
				t.method = append(t.method, sentence{text: line, section: t.section, from: Place{Text: line}, told: true})
				continue
			}
			t.say(line, Place{Text: line})
		}
	}
	if about := p.About; about != "" && len(about) < 2000 {
		for _, s := range sentences(about) {
			t.method = append(t.method, sentence{text: s, from: Place{Text: s}, about: true})
		}
	}
	return t.finish()
}

// skipped says what was not read.
func (t *textReader) skipped(what string) {
	t.r.Remarks = append(t.r.Remarks, Remark{Said: remark.Said{Kind: remark.Unread}, From: Place{Text: what}})
}

// dataYield reads "8 servings", "8", or both.
func (t *textReader) dataYield(yields []string) {
	for _, text := range yields {
		t.r.Yield = text
		if n, err := strconv.Atoi(text); err == nil && n > 0 && n <= 500 {
			t.r.Serves = n
			return
		}
		if y, ok := manuscript.YieldIn(text); ok && y.Serves > 0 {
			t.r.Serves = y.Serves
			return
		}
	}
}
