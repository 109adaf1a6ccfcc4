package picture

import (
	"time"

	"git.sr.ht/~sbinet/gg"

	"tureen/planner/sheet"
)

// laneHeight is a bar's line with its words, and least the shortest that a bar is drawn.
const (
	laneHeight = 13.5
	least      = 1.5
)

// x is where an instant lies, in points from the left margin; what is outside of the drawing lies at its edge.
func (p *page) x(t time.Time) float64 {
	t0, t1 := p.t.From, p.t.To
	return inner * min(1, max(0, float64(t.Sub(t0))/float64(t1.Sub(t0))))
}

// hours draws the last hours: a scale, what everybody looks to, and the bands.
func (p *page) hours() {
	p.y += 12
	p.paragraph(p.bold, p.text, p.t.From.In(p.t.Zone).Format("Mon 2 Jan, from 15:04"), margin, inner, 14)
	p.marks()
	top := p.y
	under := len(p.ops) // lines of the scale lie under everything
	p.scale()
	for i := range p.t.Bands {
		p.band(&p.t.Bands[i])
	}
	p.y += 3
	bottom := p.y
	p.scale()
	above := append([]func(*gg.Context){}, p.ops[under:]...)
	p.ops = p.ops[:under]
	for t := p.firstMark(30 * time.Minute); t.Before(p.t.To); t = t.Add(30 * time.Minute) {
		width := 0.8
		if t.In(p.t.Zone).Minute() != 0 {
			width = 0.4
		}
		p.rule(p.line, width, margin+p.x(t), top, margin+p.x(t), bottom)
	}
	for _, m := range p.t.Marks {
		p.rule(p.mark, 1, margin+p.x(m.At), top-4, margin+p.x(m.At), bottom, 5, 2)
	}
	if !p.t.Now.IsZero() {
		p.rule(p.text, 1.6, margin+p.x(p.t.Now), top-4, margin+p.x(p.t.Now), bottom)
	}
	p.ops = append(p.ops, above...)
}

// firstMark is the first instant within the drawing that is a multiple of a length on the clock.
func (p *page) firstMark(each time.Duration) time.Time {
	t := p.t.From.In(p.t.Zone)
	_, offset := t.Zone()
	shift := time.Duration(offset) * time.Second // zones with an odd half hour have whole hours of their own
	return t.Add(shift + each - 1).Truncate(each).Add(-shift)
}

// scale is a line of hours.
func (p *page) scale() {
	p.y += 11
	end := -1.0
	for t := p.firstMark(time.Hour); !t.After(p.t.To); t = t.Add(time.Hour) {
		label := t.In(p.t.Zone).Format("15:04")
		w := wide(p.small, label)
		x := max(0, min(p.x(t)-w/2, inner-w))
		if x < end+between {
			continue
		}
		end = x + w
		p.write(p.small, p.faint, label, margin+x, p.y-2.5)
	}
}

// marks are the names of what everybody looks to, above their lines; those that lie near each other stand in several
// lines.
func (p *page) marks() {
	var at []span
	var texts []string
	for _, m := range p.t.Marks {
		at, texts = append(at, span{p.x(m.At), p.x(m.At)}),
			append(texts, m.At.In(p.t.Zone).Format("15:04 ")+m.Text)
	}
	if !p.t.Now.IsZero() {
		at, texts = append(at, span{p.x(p.t.Now), p.x(p.t.Now)}), append(texts, p.t.Now.In(p.t.Zone).Format("15:04 ")+"now")
	}
	sets, lanes := place(p.plain, at, texts, inner)
	base := p.y + 10
	bottom := p.y + float64(lanes)*laneHeight + 4
	for i, s := range sets {
		c, x := p.mark, margin+s.bar.from
		if i == len(p.t.Marks) {
			c = p.text
		}
		y := base + float64(s.lane)*laneHeight
		p.rule(c, 1, x, y-8, x, bottom)
		if s.below {
			y += laneHeight
		}
		p.back(margin+s.words-1, y-9, wide(p.plain, s.text)+2, laneHeight-2)
		p.write(p.plain, c, s.text, margin+s.words, y)
	}
	p.y = bottom
}

// band is a row with its title and its bars in as many lanes as they need.
func (p *page) band(b *sheet.Band) {
	p.y += 5
	p.rule(p.faint, 0.6, margin, p.y, margin+inner, p.y)
	p.paragraph(p.bold, p.text, fitting(p.bold, b.Title, inner, "…"), margin, inner, 14)
	var at []span
	var texts []string
	for _, x := range b.Bars {
		text := x.Text
		if x.Over {
			text = "✓ " + text
		}
		from := p.x(x.From)
		at, texts = append(at, span{from, max(p.x(x.To), p.x(x.Until), from+least)}), append(texts, text)
	}
	sets, lanes := place(p.plain, at, texts, inner)
	for i, s := range sets {
		y := p.y + float64(s.lane)*laneHeight
		x := &b.Bars[i]
		to := max(p.x(x.To), s.bar.from+least)
		p.bar(x.Look, x.Over, margin+s.bar.from, y+2, to-s.bar.from)
		if s.bar.to > to {
			p.rule(p.work, 1.5, margin+to, y+2+barHeight/2, margin+s.bar.to, y+2+barHeight/2, 1.5, 1.5)
		}
		c := p.text
		if b.Bars[i].Over {
			c = p.faint
		}
		if s.below {
			y += laneHeight
		}
		p.back(margin+s.words, y+1.5, wide(p.plain, s.text), laneHeight-2.5)
		p.write(p.plain, c, s.text, margin+s.words, y+10)
	}
	p.y += float64(lanes) * laneHeight
}

// back is paper behind words, so that no line goes through them.
func (p *page) back(x, y, w, h float64) {
	p.paint(func(dc *gg.Context) {
		dc.SetColor(p.paper)
		dc.DrawRectangle(x, y, w, h)
		dc.Fill()
	})
}
