package qr

import "fmt"

// Encode is a text as rows of squares from the top, true for dark, without the light margin.
func Encode(text string) ([][]bool, error) {
	version := fits(len(text))
	if version == 0 {
		return nil, fmt.Errorf("a QR code holds no text of %d bytes; at most 1663", len(text))
	}
	d := newDrawing(version)
	d.write(shared(packed(text, version), version))
	best, least := 0, -1
	for mask := range 8 {
		d.mask(mask)
		d.format(mask)
		if p := d.penalty(); least < 0 || p < least {
			best, least = mask, p
		}
		d.mask(mask) // off again
	}
	d.mask(best)
	d.format(best)
	return d.dark, nil
}

// drawing is a code while it is drawn.
type drawing struct {
	version, size int
	dark          [][]bool
	fixed         [][]bool // squares that carry no text
}

func newDrawing(version int) *drawing {
	d := &drawing{version: version, size: 17 + 4*version}
	d.dark, d.fixed = grid(d.size), grid(d.size)
	for i := range d.size {
		d.set(6, i, i%2 == 0)
		d.set(i, 6, i%2 == 0)
	}
	for _, c := range [][2]int{{3, 3}, {d.size - 4, 3}, {3, d.size - 4}} {
		d.target(c[0], c[1], corner)
	}
	marks := alignment(version)
	last := len(marks) - 1
	for i, x := range marks {
		for k, y := range marks {
			if !(i == 0 && k == 0 || i == 0 && k == last || i == last && k == 0) {
				d.target(x, y, inner)
			}
		}
	}
	d.format(0) // takes its squares
	d.told()
	return d
}

func grid(n int) [][]bool {
	out := make([][]bool, n)
	all := make([]bool, n*n)
	for i := range out {
		out[i] = all[i*n : (i+1)*n]
	}
	return out
}

func (d *drawing) set(x, y int, dark bool) { d.dark[y][x], d.fixed[y][x] = dark, true }

// What is drawn as squares in squares, by how far it reaches from its middle: the corners with
// their light rim, and the marks within.
const (
	corner = 4
	inner  = 2
)

// target draws squares in squares about a place.
func (d *drawing) target(x, y, reach int) {
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			if xx, yy := x+dx, y+dy; xx >= 0 && xx < d.size && yy >= 0 && yy < d.size {
				r := max(dx, -dx, dy, -dy)
				light := r == 1 && reach == inner || (r == 2 || r == 4) && reach == corner
				d.set(xx, yy, !light)
			}
		}
	}
}

// alignment are the places of the marks along a side.
func alignment(version int) []int {
	if version == 1 {
		return nil
	}
	n := version/7 + 2
	step := (version*8 + n*3 + 5) / (n*4 - 4) * 2
	out := make([]int, n)
	out[0] = 6
	for i, at := n-1, version*4+10; i > 0; i, at = i-1, at-step {
		out[i] = at
	}
	return out
}

// format writes level and mask, twice, each with ten bits to spare.
func (d *drawing) format(mask int) {
	const levelQ = 3
	data := levelQ<<3 | mask
	rem := data
	for range 10 {
		rem = rem<<1 ^ (rem>>9)*0x537
	}
	bits := (data<<10 | rem) ^ 0x5412
	bit := func(i int) bool { return bits>>i&1 != 0 }
	for i := range 6 {
		d.set(8, i, bit(i))
	}
	d.set(8, 7, bit(6))
	d.set(8, 8, bit(7))
	d.set(7, 8, bit(8))
	for i := 9; i < 15; i++ {
		d.set(14-i, 8, bit(i))
	}
	for i := range 8 {
		d.set(d.size-1-i, 8, bit(i))
	}
	for i := 8; i < 15; i++ {
		d.set(8, d.size-15+i, bit(i))
	}
	d.set(8, d.size-8, true)
}

// told writes the version, from 7 on, twice.
func (d *drawing) told() {
	if d.version < 7 {
		return
	}
	rem := d.version
	for range 12 {
		rem = rem<<1 ^ (rem>>11)*0x1f25
	}
	bits := d.version<<12 | rem
	for i := range 18 {
		a, b := d.size-11+i%3, i/3
		d.set(a, b, bits>>i&1 != 0)
		d.set(b, a, bits>>i&1 != 0)
	}
}

// write fills the squares that are free, in pairs of columns from the right, up and down by turns.
func (d *drawing) write(data []byte) {
	i := 0
	for right := d.size - 1; right >= 1; right -= 2 {
		if right == 6 {
			right = 5
		}
		for row := range d.size {
			for k := range 2 {
				x, y := right-k, row
				if (right+1)&2 == 0 {
					y = d.size - 1 - row
				}
				if !d.fixed[y][x] && i < 8*len(data) {
					d.dark[y][x] = data[i/8]>>(7-i%8)&1 != 0
					i++
				}
			}
		}
	}
}

// mask turns the free squares over by a pattern; twice is not at all.
func (d *drawing) mask(n int) {
	for y := range d.size {
		for x := range d.size {
			if !d.fixed[y][x] && pattern(n, x, y) {
				d.dark[y][x] = !d.dark[y][x]
			}
		}
	}
}

func pattern(n, x, y int) bool {
	switch n {
	case 0:
		return (x+y)%2 == 0
	case 1:
		return y%2 == 0
	case 2:
		return x%3 == 0
	case 3:
		return (x+y)%3 == 0
	case 4:
		return (x/3+y/2)%2 == 0
	case 5:
		return x*y%2+x*y%3 == 0
	case 6:
		return (x*y%2+x*y%3)%2 == 0
	}
	return ((x+y)%2+x*y%3)%2 == 0
}
