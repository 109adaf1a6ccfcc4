package picture

import (
	"fmt"
	"time"

	"git.sr.ht/~sbinet/gg"

	"tureen/planner"
)

// A day is drawn from when people get up to when it ends.
const (
	firstHour = 6
	lastHour  = 24
)

// days draws the days before the last hours: a strip a session, and below it what is done.
func (p *page) days() {
	for _, d := range p.t.Days {
		p.y += 10
		p.paragraph(p.bold, p.text, d.Title, margin, inner, 14)
		for _, s := range d.Sessions {
			p.y += 2
			p.paragraph(p.plain, p.text, s.Title, margin, inner, 14)
			p.strip(s.Stretches)
			for _, line := range s.Lines {
				p.paragraph(p.small, p.text, line, margin+6, inner-6, 11)
			}
		}
	}
}

// strip is a day with its stretches of work.
func (p *page) strip(list []planner.Window) {
	top := p.y + 2
	at := func(hour float64) float64 { return margin + inner*(hour-firstHour)/(lastHour-firstHour) }
	p.y += 20
	p.rule(p.faint, 0.6, margin, top+6, margin+inner, top+6)
	for hour := firstHour; hour <= lastHour; hour += 3 {
		x := at(float64(hour))
		p.rule(p.faint, 0.6, x, top+4, x, top+8)
		label := fmt.Sprint(hour % 24)
		w := wide(p.small, label)
		p.write(p.small, p.faint, label, min(max(margin, x-w/2), margin+inner-w), top+16)
	}
	for _, w := range list {
		from, to := at(p.hourOf(w.From)), at(p.hourOf(w.To))
		if to < from { // past midnight
			to = margin + inner
		}
		p.paint(func(dc *gg.Context) {
			dc.SetColor(p.work)
			dc.DrawRectangle(from, top+1.5, max(to-from, 1.5), 9)
			dc.Fill()
		})
	}
}

// hourOf is an instant as hours of its day, not before the first that is drawn.
func (p *page) hourOf(t time.Time) float64 {
	t = t.In(p.t.Zone)
	return max(firstHour, float64(t.Hour())+float64(t.Minute())/60)
}
