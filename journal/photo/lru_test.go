package photo_test

import (
	"sync"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/photo"
)

// model is an LRU in the plainest words: a list, the latest used last.
type model struct {
	limit int64
	items []modelItem
}

type modelItem struct {
	key  int
	size int64
}

func (m *model) remove(key int) {
	for i, it := range m.items {
		if it.key == key {
			m.items = append(m.items[:i:i], m.items[i+1:]...)
			return
		}
	}
}

func (m *model) get(key int) (int64, bool) {
	for _, it := range m.items {
		if it.key == key {
			m.remove(key)
			m.items = append(m.items, it)
			return it.size, true
		}
	}
	return 0, false
}

func (m *model) bytes() (sum int64) {
	for _, it := range m.items {
		sum += it.size
	}
	return sum
}

func (m *model) put(key int, size int64) {
	m.remove(key)
	if size > m.limit {
		return
	}
	m.items = append(m.items, modelItem{key, size})
	for m.bytes() > m.limit {
		m.items = m.items[1:]
	}
}

func TestTheLRUDoesWhatItsPlainModelDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Int64Range(0, 40).Draw(t, "limit")
		lru := photo.NewLRU[int](limit, func(v int64) int64 { return v })
		m := &model{limit: limit}
		key := rapid.IntRange(0, 7)
		t.Repeat(map[string]func(*rapid.T){
			"put": func(t *rapid.T) {
				k, size := key.Draw(t, "key"), rapid.Int64Range(0, 45).Draw(t, "size")
				lru.Put(k, size)
				m.put(k, size)
			},
			"get": func(t *rapid.T) {
				k := key.Draw(t, "key")
				got, ok := lru.Get(k)
				want, wantOK := m.get(k)
				if got != want || ok != wantOK {
					t.Fatalf("key %d gives %d, %v; the model %d, %v", k, got, ok, want, wantOK)
				}
			},
			"remove": func(t *rapid.T) {
				k := key.Draw(t, "key")
				lru.Remove(k)
				m.remove(k)
			},
			"clear": func(*rapid.T) {
				lru.Clear()
				m.items = nil
			},
			"": func(t *rapid.T) {
				if lru.Len() != len(m.items) || lru.Bytes() != m.bytes() {
					t.Fatalf("holds %d values in %d bytes; the model %d in %d", lru.Len(), lru.Bytes(), len(m.items), m.bytes())
				}
				if lru.Bytes() > limit {
					t.Fatalf("holds %d bytes of %d", lru.Bytes(), limit)
				}
			},
		})
	})
}

func TestTheLRUKeepsItsLimitWhenManyUseIt(t *testing.T) {
	lru := photo.NewLRU[int](100, func(v int64) int64 { return v })
	var wg sync.WaitGroup
	for g := range 8 {
		wg.Go(func() {
			for i := range 500 {
				lru.Put((g*31+i)%40, int64(i%30))
				if v, ok := lru.Get(i % 40); ok && (v < 0 || v >= 30) {
					t.Errorf("got %d", v)
				}
				if i%100 == 0 {
					lru.Remove(i % 40)
				}
			}
		})
	}
	wg.Wait()
	if b := lru.Bytes(); b > 100 {
		t.Errorf("holds %d bytes of 100", b)
	}
}
