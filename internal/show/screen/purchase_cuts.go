package screen

import (
	"fmt"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
)

// cuts words the cutting of one stock.
func (b *buying) cuts(p *purchase.Plan) CutRow {
	row := CutRow{
		Words: p.Words, Bars: []BarRow{}, Joints: []string{},
		From: *from("Cutting", "pieces one behind another in each length, a cut between two; among all ways the one of the least price, with proof", "a cut takes "+b.system.Marked(p.Kerf)),
	}
	if p.Untold != "" {
		row.Sentence = upper(b.namesIn(p.Untold)) + "." + b.joined(p)
		row.Joints = JointsToGoIn(p, b.system, b.named)
		row.Sentence += " Split, under Lines at the left, sets one in; or bring in who sells longer ones."
		row.Scene = draw.Cuts(p.Words, nil, draw.Sheet{Width: cutWidth, Height: 1})
		return row
	}
	row.Sentence = fmt.Sprintf("%s out of %s in %s", b.system.Listed(p.Cut), b.system.Listed(p.Bought), plural(len(p.Bars), "length", "lengths"))
	if !p.Proven {
		row.Sentence += "; not proved to be the best"
	}
	row.Sentence += "." + b.joined(p)
	var bars []draw.CutBar
	for n, bar := range p.Bars {
		bars = append(bars, draw.CutBar{Words: strconv.Itoa(n + 1), Long: float64(bar.Length), Open: float64(bar.Open)})
		line := BarRow{Words: fmt.Sprintf("%d: %s", n+1, b.system.Listed(bar.Length)), Cuts: []CutMark{}, Left: b.system.Marked(bar.Open)}
		if bar.From != "bought" {
			line.Words += ", " + barFrom[bar.From]
		}
		if bar.Name != "" {
			line.Left += ", kept as " + bar.Name
		}
		for _, c := range bar.Cuts {
			thing := parts.ThingOf(c.Piece)
			mark := CutMark{Length: b.system.Marked(c.Length), Piece: c.Piece, Thing: string(thing)}
			if c.Mark != nil {
				mark.At = fmt.Sprintf("%s, %s along, %s up", b.named(c.Mark.Wall), b.system.Marked(c.Mark.Along), b.system.Marked(c.Mark.Up))
			}
			line.Cuts = append(line.Cuts, mark)
			bars[n].Pieces = append(bars[n].Pieces, draw.CutPiece{ID: string(thing), Title: b.named(thing) + ": " + mark.Length, Words: mark.Length, Long: float64(c.Length)})
		}
		row.Bars = append(row.Bars, line)
	}
	row.Scene = draw.Cuts(p.Words, bars, draw.Sheet{Width: cutWidth, Height: draw.CutsHigh(len(bars))})
	return row
}

// joined says which piece may as well be made of two ends.
func (b *buying) joined(p *purchase.Plan) string {
	if p.Join == nil {
		return ""
	}
	thing := parts.ThingOf(p.Join.Piece)
	ends := b.system.Marked(p.Join.Ends[0]) + " and " + b.system.Marked(p.Join.Ends[1])
	if p.Untold != "" {
		return fmt.Sprintf(" A coupling in %s makes it of %s.", b.named(thing), ends)
	}
	return fmt.Sprintf(" A coupling in %s, which is then made of %s, saves %s: a joint more to keep tight.", b.named(thing), ends, b.cents(float64(p.Join.Saves)))
}

// JointsToGoIn says of pieces that are longer than any length on offer where joints may be,
// the longest first; named is what a line is called.
func JointsToGoIn(p *purchase.Plan, system unit.System, named func(job.ID) string) []string {
	const most = 8
	out := []string{}
	for i, l := range p.Long {
		if i == most && len(p.Long) > most+1 {
			return append(out, fmt.Sprintf("and %d more pieces", len(p.Long)-most))
		}
		piece := fmt.Sprintf("%s, a piece of %s", named(parts.ThingOf(l.Piece)), system.Marked(l.Length))
		words := fmt.Sprintf("%s: a coupling at most %s from one end", piece, system.Marked(l.Fits))
		if l.Joints > 1 {
			words = fmt.Sprintf("%s: %d couplings, at most %s from the ends and from each other", piece, l.Joints, system.Marked(l.Fits))
		}
		out = append(out, words)
	}
	return out
}

// barFrom says where a length comes from.
var barFrom = map[string]string{"kit": "out of a kit", "drawer": "from the drawer", "to length": "cut by the seller"}
