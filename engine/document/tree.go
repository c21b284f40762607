package document

// tree writes the value that is next in d, which is known to be JSON, in the
// layout of the document: keys stay in the order in which they stand.
func (e *encoder) tree(d *decoder, indent int) {
	c := d.peek()
	if c != '{' && c != '[' {
		at := d.pos
		if c == '"' {
			e.quote(d.str())
			return
		}
		d.skip()
		e.b = append(e.b, d.s[at:d.pos]...)
		return
	}
	if !e.flat {
		start, from := len(e.b), d.pos
		e.flat, e.stop, e.over = true, e.lineStart()+width, false
		e.branches(d, c, -1)
		over := e.over || len(e.b) > e.stop
		e.flat, e.over = false, false
		if !over {
			return
		}
		e.b, d.pos, d.dead = e.b[:start], from, false
		e.branches(d, c, indent+1)
		return
	}
	e.branches(d, c, -1)
}

// branches writes the members of an object or list of d; indent -1 is one line.
func (e *encoder) branches(d *decoder, open byte, indent int) {
	e.b = append(e.b, open)
	count, depth := 0, d.depth
	d.members(open, func(key string, _, _ int) {
		if count++; count > 1 {
			e.b = append(e.b, ',')
		}
		if indent >= 0 {
			e.line(indent)
		} else if count > 1 {
			e.b = append(e.b, ' ')
		}
		if open == '{' {
			e.quote(key)
			e.b = append(e.b, ": "...)
		}
		e.tree(d, max(indent, 0))
		if e.flat && len(e.b) > e.stop {
			e.over, d.dead = true, true // too long for one line: no need to go on
		}
	})
	d.depth = depth
	if indent >= 0 && count > 0 {
		e.line(indent - 1)
	}
	e.b = append(e.b, open+2)
}
