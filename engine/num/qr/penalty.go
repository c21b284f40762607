package qr

// penalty is how hard a code is to read: long runs, blocks, what looks like a corner, and too
// much dark or light, with the weights of the standard.
func (d *drawing) penalty() int {
	const block, uneven = 3, 10
	sum, dark := 0, 0
	line := make([]bool, d.size)
	for y := range d.size {
		sum += alongLine(d.dark[y])
		for x := range d.size {
			line[x] = d.dark[x][y]
			if d.dark[y][x] {
				dark++
			}
			if x > 0 && y > 0 {
				if c := d.dark[y][x]; c == d.dark[y][x-1] && c == d.dark[y-1][x] && c == d.dark[y-1][x-1] {
					sum += block
				}
			}
		}
		sum += alongLine(line)
	}
	all := d.size * d.size
	off := max(20*dark-10*all, 10*all-20*dark) // 20 times the excess over a half
	return sum + uneven*((off+all-1)/all-min(1, off))
}

// alongLine is the penalty of one row or column.
func alongLine(line []bool) int {
	const run, likeCorner = 3, 40
	sum, long := 0, 0
	window := 0
	for i, dark := range line {
		if i > 0 && dark == line[i-1] {
			long++
		} else {
			long = 1
		}
		switch {
		case long == 5:
			sum += run
		case long > 5:
			sum++
		}
		window = window << 1 & 0x7ff
		if dark {
			window |= 1
		}
		// Dark light dark dark dark light dark with four light on a side, as at a corner.
		if i >= 10 && (window == 0x5d0 || window == 0x05d) {
			sum += likeCorner
		}
	}
	return sum
}
