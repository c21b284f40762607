package server

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"
)

// page serves the files of the page. Each carries a tag of its bytes, so that a
// browser asks and is told that nothing has changed.
func page(files fs.FS) http.Handler {
	var tags sync.Map // name → tag
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !safe(r.Method) {
			w.Header().Set("Allow", "GET, HEAD")
			fail(w, http.StatusMethodNotAllowed, "pages are only read", "the request is a "+clip(r.Method))
			return
		}
		name := strings.TrimPrefix(r.URL.Path, "/")
		if isPage(r.URL.Path) {
			name = "index.html"
		}
		// fs.ValidPath refuses "..", empty parts and roots: nothing outside the files is reached.
		data, err := read(files, name)
		packed := false
		if err != nil {
			if data, err = read(files, name+".gz"); err == nil {
				if packed = gzipped(r); !packed {
					data, err = unpacked(data)
				}
			}
		}
		if err != nil {
			fail(w, http.StatusNotFound, "there is no such page", clip(r.URL.Path))
			return
		}
		key := name
		if packed {
			key = name + ".gz"
			w.Header().Set("Content-Encoding", "gzip")
		}
		tag, ok := tags.Load(key)
		if !ok {
			sum := sha256.Sum256(data)
			tag = `"` + hex.EncodeToString(sum[:12]) + `"`
			tags.Store(key, tag)
		}
		h := w.Header()
		h.Set("Content-Type", contentType(name))
		h.Set("Cache-Control", "no-cache")
		h.Set("ETag", tag.(string))
		h.Set("Vary", "Accept-Encoding")
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(data))
	})
}

// gzipped says whether a browser takes what is packed; all do.
func gzipped(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept-Encoding"), "gzip")
}

func unpacked(data []byte) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(z)
}

// isPage says whether a path is one of the page's own addresses: the list of jobs,
// or a job.
func isPage(path string) bool {
	id, ok := strings.CutPrefix(path, "/job/")
	return path == "/" || ok && id != "" && !strings.Contains(id, "/")
}

func read(files fs.FS, name string) ([]byte, error) {
	if !fs.ValidPath(name) {
		return nil, fs.ErrNotExist
	}
	return fs.ReadFile(files, name)
}

// contentType does not ask the system's table, which differs from one computer to the next.
func contentType(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".svg":
		return "image/svg+xml"
	case ".mjs":
		return "text/javascript; charset=utf-8"
	case ".txt":
		return "text/plain; charset=utf-8"
	}
	if t := mime.TypeByExtension(path.Ext(name)); t != "" {
		return t
	}
	return "application/octet-stream"
}
