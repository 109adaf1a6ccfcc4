package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"sync"

	"git.sr.ht/~sbinet/gg"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"tureen/planner/sheet"
)

// A picture's measures are in points; each is drawn as two by two dots, which is sharp on
// a phone and on paper, and light enough to send.
const (
	Width  = 390 // points
	dots   = 2
	margin = 12
	inner  = Width - 2*margin
)

// Shade is what a picture is drawn on.
type Shade int

// The shades.
const (
	Light Shade = iota
	Dark
)

// inks are a picture's colours; each stands out from the paper by a contrast of 4.5 at least, but for lines.
type inks struct{ paper, text, faint, line, work, heat, mark color.NRGBA }

var inksOf = map[Shade]inks{
	Light: {paper: grey(0xfb), text: grey(0x1c), faint: grey(0x5a), line: grey(0xd2),
		work: color.NRGBA{0x1f, 0x4e, 0x46, 255}, heat: color.NRGBA{0x96, 0x3a, 0x14, 255},
		mark: color.NRGBA{0x5b, 0x2a, 0x6e, 255}},
	Dark: {paper: grey(0x19), text: grey(0xec), faint: grey(0xa6), line: grey(0x44),
		work: color.NRGBA{0x8f, 0xc9, 0xba, 255}, heat: color.NRGBA{0xf0, 0xa2, 0x72, 255},
		mark: color.NRGBA{0xd4, 0xa9, 0xe4, 255}},
}

func grey(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }

// typeface is read once: it is the same for every picture.
var typeface = sync.OnceValues(func() (plain, bold *opentype.Font) {
	read := func(data []byte) *opentype.Font {
		f, err := opentype.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("picture: a font that is compiled in: %v", err))
		}
		return f
	}
	return read(dejavusanscondensed.TTF), read(dejavusanscondensedbold.TTF)
})

// page is a picture that is being laid out.
type page struct {
	inks
	t                         *sheet.Timeline
	y                         float64 // how far down it goes by now
	ops                       []func(dc *gg.Context)
	small, plain, bold, title font.Face
	hatch, upright            gg.Pattern
}

// PNG draws a timeline.
func PNG(t sheet.Timeline, s Shade) ([]byte, error) {
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	err := enc.Encode(&b, draw(&t, s))
	return b.Bytes(), err
}

func draw(t *sheet.Timeline, s Shade) image.Image {
	p := &page{inks: inksOf[s], t: t, y: margin}
	plain, bold := typeface()
	for _, f := range []struct {
		face *font.Face
		of   *opentype.Font
		size float64
	}{{&p.small, plain, 8.5}, {&p.plain, plain, 10.5}, {&p.bold, bold, 10.5}, {&p.title, bold, 16}} {
		face, err := opentype.NewFace(f.of, &opentype.FaceOptions{Size: f.size * dots, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			panic(fmt.Sprintf("picture: a face of %g points: %v", f.size, err))
		}
		*f.face = face
	}
	p.hatch, p.upright = p.stripes(p.work, true), p.stripes(p.heat, false)
	p.paragraph(p.title, p.text, t.Title, margin, inner, 20)
	p.paragraph(p.plain, p.text, t.Under, margin, inner, 14)
	p.days()
	p.hours()
	p.key()
	p.y += 4
	p.paragraph(p.small, p.faint, t.Version, margin, inner, 11)
	dc := gg.NewContext(Width*dots, int((p.y+margin)*dots))
	dc.SetColor(p.paper)
	dc.Clear()
	dc.Scale(dots, dots)
	for _, op := range p.ops {
		op(dc)
	}
	return p.reduced(dc.Image().(*image.RGBA))
}

func (p *page) paint(op func(dc *gg.Context)) { p.ops = append(p.ops, op) }

// wide is how many points a text takes.
func wide(face font.Face, s string) float64 { return float64(font.MeasureString(face, s)) / 64 / dots }

// write puts a text on its base line.
func (p *page) write(face font.Face, c color.Color, s string, x, y float64) {
	p.paint(func(dc *gg.Context) {
		dc.Push()
		dc.Identity() // type is set in dots, or it would be blown up from points
		dc.SetFontFace(face)
		dc.SetColor(c)
		dc.DrawString(s, x*dots, y*dots)
		dc.Pop()
	})
}

// paragraph writes a text in lines of a width, and goes down by as many.
func (p *page) paragraph(face font.Face, c color.Color, s string, x, width, leading float64) {
	for _, line := range wrapped(face, s, width) {
		p.y += leading
		p.write(face, c, line, x, p.y-leading*0.25)
	}
}

// rule is a thin line.
func (p *page) rule(c color.Color, width, x0, y0, x1, y1 float64, dash ...float64) {
	p.paint(func(dc *gg.Context) {
		dc.SetColor(c)
		dc.SetLineWidth(width * dots)
		for i := range dash {
			dash[i] *= dots
		}
		dc.SetDash(dash...)
		dc.DrawLine(x0, y0, x1, y1)
		dc.Stroke()
		dc.SetDash()
	})
}

// steps are how many blends of an ink with the paper a picture has, along the edges of its letters.
const steps = 40

// reduced is a picture of few colours, which is put up and sent in a third of the time: the paper, the inks and their
// blends.
func (p *page) reduced(img *image.RGBA) *image.Paletted {
	palette := color.Palette{p.paper}
	for _, ink := range []color.NRGBA{p.text, p.faint, p.line, p.work, p.heat, p.mark} {
		for i := 1; i <= steps; i++ {
			blend := func(from, to uint8) uint8 { return uint8(int(from) + (int(to)-int(from))*i/steps) }
			palette = append(palette, color.NRGBA{blend(p.paper.R, ink.R), blend(p.paper.G, ink.G), blend(p.paper.B, ink.B),
				255})
		}
	}
	out := image.NewPaletted(img.Rect, palette)
	known := map[color.RGBA]uint8{}
	var last color.RGBA
	var at uint8
	for i := range out.Pix {
		if c := (color.RGBA{img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2], 255}); c != last {
			index, met := known[c]
			if !met {
				index = uint8(palette.Index(c))
				known[c] = index
			}
			last, at = c, index
		}
		out.Pix[i] = at
	}
	return out
}
