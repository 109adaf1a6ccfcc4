package picture

import (
	"image/color"

	"git.sr.ht/~sbinet/gg"

	"tureen/planner/sheet"
)

// barHeight is how high a bar is within its lane.
const barHeight = 9.0

// stripes is a pattern of lines, aslant or upright.
func (p *page) stripes(c color.Color, aslant bool) gg.Pattern {
	const side = 4 * dots
	dc := gg.NewContext(side, side)
	dc.SetColor(p.paper)
	dc.Clear()
	dc.SetColor(c)
	dc.SetLineWidth(side / 4)
	if aslant {
		for _, shift := range []float64{-side, 0, side} { // so that the tiles fit each other
			dc.DrawLine(shift-1, side+1, shift+side+1, -1)
		}
	} else {
		dc.DrawLine(side/2, 0, side/2, side)
	}
	dc.Stroke()
	return gg.NewSurfacePattern(dc.Image(), gg.RepeatBoth)
}

// bar draws a bar of a look from its left upper corner.
func (p *page) bar(look sheet.Look, over bool, x, y, w float64) {
	p.paint(func(dc *gg.Context) {
		c := p.work
		if look == sheet.Hot || look == sheet.Warming {
			c = p.heat
		}
		if over {
			c = p.faint
		}
		dc.SetColor(c)
		dc.SetLineWidth(dots)
		if look == sheet.Waiting {
			dc.DrawLine(x, y+barHeight/2, x+w, y+barHeight/2)
			dc.DrawLine(x+w, y+1, x+w, y+barHeight-1)
			dc.Stroke()
			return
		}
		if look == sheet.Warming {
			dc.MoveTo(x, y+barHeight)
			dc.LineTo(x+w, y+barHeight)
			dc.LineTo(x+w, y)
			dc.ClosePath()
			dc.Fill()
			return
		}
		dc.DrawRectangle(x, y, w, barHeight)
		switch {
		case look == sheet.ByHand && !over:
			dc.Fill()
			return
		case look == sheet.Watched && !over:
			dc.SetFillStyle(p.hatch)
		case look == sheet.Hot && !over:
			dc.SetFillStyle(p.upright)
		default:
			dc.SetColor(p.paper)
		}
		dc.Fill()
		dc.SetColor(c)
		dc.DrawRectangle(x+0.5, y+0.5, max(w-1, 0.5), barHeight-1)
		dc.Stroke()
	})
}

// lookNames are what the key says.
var lookNames = []struct {
	look sheet.Look
	text string
}{
	{sheet.ByHand, "hands"}, {sheet.Watched, "keep an eye on it"}, {sheet.Alone, "by itself"}, {sheet.Hot, "in the oven"},
	{sheet.Warming, "oven heats up"}, {sheet.Waiting, "food waits"},
}

// key says what the bars that are there mean.
func (p *page) key() {
	used, spare := map[sheet.Look]bool{}, false
	for _, b := range p.t.Bands {
		for _, x := range b.Bars {
			used[x.Look] = true
			spare = spare || x.Until.After(x.To)
		}
	}
	const sample, apart = 18, 10
	x := float64(margin)
	p.y += 8
	// next writes a text of the key, and answers where its sample begins.
	next := func(text string) float64 {
		w := sample + between + wide(p.small, text) + apart
		if x+w > margin+inner+apart {
			x, p.y = margin, p.y+laneHeight
		}
		p.write(p.small, p.text, text, x+sample+between, p.y+8)
		x += w
		return x - w
	}
	for _, n := range lookNames {
		if used[n.look] {
			at := next(n.text)
			p.bar(n.look, false, at, p.y, sample)
		}
	}
	if spare {
		at := next("may run over")
		p.rule(p.work, 1.5, at, p.y+barHeight/2, at+sample, p.y+barHeight/2, 1.5, 1.5)
	}
	p.y += laneHeight
}
