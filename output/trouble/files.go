package trouble

// File is one picture by itself.
type File struct {
	Name string
	Data []byte
}

// Files are the pictures, each a file of its own.
func (s *Sheet) Files() []File {
	if s.Without != "" {
		return nil
	}
	list := []File{{"drawing-good.svg", s.Good}}
	for i := range s.Seen {
		list = append(list, File{"drawing-" + s.Seen[i].Slug + ".svg", s.Seen[i].Picture})
	}
	return list
}
