package scene

import (
	"bufio"
	"io"
	"strconv"
)

// WriteLeafSVG writes one leaf as an SVG document of its size on paper. The same leaf gives
// the same bytes.
func WriteLeafSVG(w io.Writer, leaf Leaf, theme Theme) error {
	p := svgWriter{w: bufio.NewWriter(w), theme: theme, print: true}
	p.head(leaf.Title, leaf.Width, leaf.Height)
	for i := range leaf.Laid {
		l := &leaf.Laid[i]
		p.scale, p.origin = l.Scale, Point{-l.At[0], leaf.Height - l.At[1]}
		clip := ""
		if v := l.Window; v != nil {
			id := "window-" + strconv.Itoa(i+1)
			p.put(`<clipPath id="`, id, `"><rect x="`, mm(v[0][0]), `" y="`, mm(leaf.Height-v[1][1]), `" width="`, mm(v[1][0]-v[0][0]), `" height="`, mm(v[1][1]-v[0][1]), `"/></clipPath>`, "\n")
			clip = ` clip-path="url(#` + id + `)"`
		}
		p.put("<g", clip, ">\n")
		for _, layer := range l.Scene.Layers {
			for _, item := range layer.Items {
				p.item(item)
			}
		}
		p.put("</g>\n")
	}
	p.put("</svg>\n")
	return p.w.Flush()
}
