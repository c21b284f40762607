package page

// Shelf sets charts side by side, as many to a row as have room.
type Shelf []Chart

// aisle is between two charts of a shelf, mm.
const aisle = 4

func (s Shelf) onto(c *composer) {
	x, tall := c.left(), 0.0
	for _, ch := range s {
		wide, high := (ch.Scene.Max[0]-ch.Scene.Min[0])*ch.Scale, (ch.Scene.Max[1]-ch.Scene.Min[1])*ch.Scale
		if x > c.left() && x+wide > c.right() {
			x, c.y, tall = c.left(), c.y-tall-aisle, 0
		}
		if c.y-high < c.bottom() && c.y < c.top() {
			c.turn()
			x, tall = c.left(), 0
		}
		c.lay(&ch, x)
		x, tall = x+wide+aisle, max(tall, high)
	}
	c.y -= tall + 2
}
