package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
)

// notices gathers the licence of each package whose code is in the bundle: the
// licences ask that their text travels with the code, and minifying drops comments.
func notices(web string, meta metafile) ([]byte, error) {
	found := map[string]bool{}
	for path := range meta.Inputs {
		if name := packageOf(path); name != "" {
			found[name] = true
		}
	}
	names := make([]string, 0, len(found))
	for name := range found {
		names = append(names, name)
	}
	sort.Strings(names)
	var text bytes.Buffer
	for i, name := range names {
		licence, err := os.ReadFile(filepath.Join(web, "node_modules", filepath.FromSlash(name), "LICENSE"))
		if err != nil {
			return nil, fmt.Errorf("reading the licence of bundled package %s: %w", name, err)
		}
		if i > 0 {
			text.WriteString("\n")
		}
		fmt.Fprintf(&text, "%s\n\n%s\n", name, bytes.TrimSpace(licence))
	}
	return text.Bytes(), nil
}

// packageOf names the package that a path of the report belongs to, "" for our own
// files. A scoped name has two parts.
func packageOf(path string) string {
	at := strings.LastIndex(path, "node_modules/")
	if at < 0 {
		return ""
	}
	parts := strings.Split(path[at+len("node_modules/"):], "/")
	if strings.HasPrefix(parts[0], "@") && len(parts) > 1 {
		return parts[0] + "/" + parts[1]
	}
	return parts[0]
}
