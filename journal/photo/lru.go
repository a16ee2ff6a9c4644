package photo

import (
	"container/list"
	"sync"
)

// LRU holds values by key up to a number of bytes and lets go of what was used
// longest ago. It is safe for concurrent use. Make one with [NewLRU].
type LRU[K comparable, V any] struct {
	limit int64
	size  func(V) int64

	mu    sync.Mutex
	used  int64
	order *list.List // of *lruItem[K, V], the latest used at the front
	items map[K]*list.Element
}

type lruItem[K comparable, V any] struct {
	key   K
	value V
	size  int64
}

// NewLRU makes an empty LRU for up to limit bytes; size tells how many a value
// takes and is asked once, when the value is put in.
func NewLRU[K comparable, V any](limit int64, size func(V) int64) *LRU[K, V] {
	return &LRU[K, V]{limit: limit, size: size, order: list.New(), items: make(map[K]*list.Element)}
}

// Get gives the value under key and marks it as just used.
func (l *LRU[K, V]) Get(key K) (V, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	e, ok := l.items[key]
	if !ok {
		var none V
		return none, false
	}
	l.order.MoveToFront(e)
	return e.Value.(*lruItem[K, V]).value, true
}

// Put holds value under key in place of what was there. A value larger than the
// whole limit is not held.
func (l *LRU[K, V]) Put(key K, value V) {
	size := max(l.size(value), 0)
	l.mu.Lock()
	defer l.mu.Unlock()
	if e, ok := l.items[key]; ok {
		l.drop(e)
	}
	if size > l.limit {
		return
	}
	l.items[key] = l.order.PushFront(&lruItem[K, V]{key, value, size})
	l.used += size
	for l.used > l.limit {
		l.drop(l.order.Back())
	}
}

// Remove lets go of the value under key, if there is one.
func (l *LRU[K, V]) Remove(key K) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if e, ok := l.items[key]; ok {
		l.drop(e)
	}
}

// Clear lets go of everything.
func (l *LRU[K, V]) Clear() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.order.Init()
	clear(l.items)
	l.used = 0
}

// Len is how many values are held.
func (l *LRU[K, V]) Len() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return len(l.items)
}

// Bytes is how many bytes the held values take.
func (l *LRU[K, V]) Bytes() int64 {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.used
}

func (l *LRU[K, V]) drop(e *list.Element) {
	item := l.order.Remove(e).(*lruItem[K, V])
	delete(l.items, item.key)
	l.used -= item.size
}
