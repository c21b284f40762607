package qr

// Sizes are the versions 1 to 40 of the standard, 17 + 4·version squares wide.
const sizes = 40

// spare and blocks are, by version, how many bytes each block has to spare at level Q, and into
// how many blocks the bytes are shared (ISO/IEC 18004, table 9; recalled).
var (
	spare = [sizes + 1]int{
		0, 13, 22, 18, 26, 18, 24, 18, 22, 20, 24, 28, 26, 24, 20, 30, 24, 28, 28, 26, 30,
		28, 30, 30, 30, 30, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30,
	}
	blocks = [sizes + 1]int{
		0, 1, 1, 2, 2, 4, 4, 6, 6, 8, 8, 8, 10, 12, 16, 12, 17, 16, 18, 21, 20,
		23, 23, 25, 27, 29, 34, 34, 35, 38, 40, 43, 45, 48, 51, 53, 56, 59, 62, 65, 68,
	}
)

// room is how many bytes the squares of a version hold, spare ones included.
func room(version int) int {
	n := (16*version+128)*version + 64
	if version >= 2 {
		marks := version/7 + 2
		n -= (25*marks-10)*marks - 55
		if version >= 7 {
			n -= 36
		}
	}
	return n / 8
}

// fits is the least version that holds so many bytes of text; 0 for none.
func fits(text int) int {
	for v := 1; v <= sizes; v++ {
		if text <= (8*(room(v)-spare[v]*blocks[v])-4-counted(v))/8 {
			return v
		}
	}
	return 0
}

// counted is how many bits tell the length of the text.
func counted(version int) int {
	if version < 10 {
		return 8
	}
	return 16
}

// packed is a text as the bytes of a version, before they are shared among blocks: four bits
// for the mode, the length, the text, and filling.
func packed(text string, version int) []byte {
	out := make([]byte, room(version)-spare[version]*blocks[version])
	at := 0
	put := func(value, bits int) {
		for k := bits - 1; k >= 0; k-- {
			out[at/8] |= byte(value>>k&1) << (7 - at%8)
			at++
		}
	}
	const bytewise = 4
	put(bytewise, 4)
	put(len(text), counted(version))
	for i := range len(text) {
		put(int(text[i]), 8)
	}
	at = (at + min(4, 8*len(out)-at) + 7) / 8
	for fill := byte(0xec); at < len(out); at++ {
		out[at] = fill
		fill ^= 0xec ^ 0x11
	}
	return out
}

// shared are the bytes in the order in which they are drawn: those of all blocks by turns, then
// what each has to spare.
func shared(data []byte, version int) []byte {
	n, ec := blocks[version], spare[version]
	short := len(data) / n
	long := len(data) % n // so many blocks, the last ones, have a byte more
	g := generator(ec)
	var parts, rests [][]byte
	for k, at := 0, 0; k < n; k++ {
		size := short
		if k >= n-long {
			size++
		}
		parts = append(parts, data[at:at+size])
		rests = append(rests, remainder(data[at:at+size], g))
		at += size
	}
	out := make([]byte, 0, room(version))
	for i := range short + 1 {
		for _, p := range parts {
			if i < len(p) {
				out = append(out, p[i])
			}
		}
	}
	for i := range ec {
		for _, r := range rests {
			out = append(out, r[i])
		}
	}
	return out
}

// times is the product in GF(256) modulo x⁸ + x⁴ + x³ + x² + 1.
func times(a, b byte) byte {
	z := 0
	for k := 7; k >= 0; k-- {
		z = z<<1 ^ (z>>7)*0x11d
		z ^= int(b>>k&1) * int(a)
	}
	return byte(z)
}

// generator is the product of x − 2ᵏ for k below the degree, its leading one left out.
func generator(degree int) []byte {
	g := make([]byte, degree)
	g[degree-1] = 1
	root := byte(1)
	for range degree {
		for j := range g {
			g[j] = times(g[j], root)
			if j+1 < degree {
				g[j] ^= g[j+1]
			}
		}
		root = times(root, 2)
	}
	return g
}

// remainder is what a block has to spare.
func remainder(data, g []byte) []byte {
	out := make([]byte, len(g))
	for _, b := range data {
		factor := b ^ out[0]
		copy(out, out[1:])
		out[len(out)-1] = 0
		for i := range g {
			out[i] ^= times(g[i], factor)
		}
	}
	return out
}
