package web

import (
	"embed"
	"io/fs"
)

//go:embed dist
var dist embed.FS

// Files gives the page's files; "index.html" is at the root.
func Files() fs.FS {
	root, err := fs.Sub(dist, "dist")
	if err != nil {
		// Only an invalid path gives an error, and this one is a constant.
		panic(err)
	}
	return root
}
