package draw

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// roomWords writes name and size of every room where it finds room for them.
func (p *planner) roomWords() []scene.Item {
	var items []scene.Item
	for _, r := range p.job.Building.Rooms {
		items = append(items, p.roomWord(r)...)
	}
	return items
}

func (p *planner) roomWord(r job.Room) []scene.Item {
	low, high := bounds(flats(r.Outline))
	name := r.Name
	size := p.sheet.extent(high[0]-low[0], high[1]-low[1])
	if p.unheated(r.Zone) {
		size += ", unheated"
	}
	const big, small = 3.3, 2.5
	w := max(scene.TextWidth(name, big, false), scene.TextWidth(size, small, false))
	h := big + small*1.35
	pick, found := label{}, false
	lowMM, highMM := p.mm(low), p.mm(high)
	var tried []label
	// Top left is where a reader looks first; the order of the grid is the preference.
	const rows, columns, inset = 7, 7, off + 3.0
	for row := range rows {
		for column := range columns {
			x := lowMM[0] + inset + float64(column)/(columns-1)*max(highMM[0]-lowMM[0]-2*inset-w, 0)
			y := highMM[1] - inset - float64(row)/(rows-1)*max(highMM[1]-lowMM[1]-2*inset-h, 0)
			tried = append(tried, label{
				box: box{x, y - h, x + w, y}, at: scene.Point{x, y - big*0.8}, anchor: "start",
				cost: 0.15 * float64(row+column),
			})
		}
	}
	for i := range tried {
		// Obstacles are drawn under the words but are named themselves.
		for _, o := range p.job.Building.Obstacles {
			a, b := bounds(flats(o.Outline))
			a, b = p.mm(a), p.mm(b)
			tried[i].cost += 0.6 * tried[i].box.overlap(box{a[0], a[1], b[0], b[1]})
		}
	}
	pick, found = best(&p.field, tried), true
	if !found || pick.cost > quiet {
		return nil
	}
	p.field.take(pick.box)
	items := []scene.Item{}
	if name != "" {
		items = append(items, scene.Words(string(r.ID), name, p.metres(pick.at), scene.Point{}, big, "start", "soft"))
	}
	return append(items, scene.Words(string(r.ID), size, p.metres(pick.at), scene.Point{0, -small * 1.4}, small, "start", "soft"))
}

// obstacleWords names obstacles inside their outline where the name fits.
func (p *planner) obstacleWords() []scene.Item {
	const size = 2.6
	var items []scene.Item
	for _, o := range p.job.Building.Obstacles {
		name := or(o.Name, o.Kind)
		low, high := bounds(flats(o.Outline))
		low, high = p.mm(low), p.mm(high)
		var tried []label
		w := scene.TextWidth(name, size, false)
		free := max(high[0]-low[0]-w-2, 0)
		for i, t := range []float64{0.5, 0.25, 0.75, 0, 1} {
			for j, u := range []float64{0.5, 0.35, 0.65} {
				at := scene.Point{(low[0]+high[0])/2 + (t-0.5)*free, low[1] + u*(high[1]-low[1]) - size*0.3}
				l := written(name, size, false, at, "middle")
				l.cost = 0.2 * float64(i+j)
				if l.box.x0 < low[0] || l.box.x1 > high[0] {
					l.cost += quiet + 1 // words that hang over on both sides name nothing
				}
				tried = append(tried, l)
			}
		}
		pick := best(&p.field, tried)
		if pick.cost > quiet {
			continue // too narrow here; its title still tells the name
		}
		p.field.take(pick.box)
		items = append(items, scene.Words(string(o.ID), name, p.metres(pick.at), scene.Point{}, size, "middle", "soft"))
	}
	return items
}
