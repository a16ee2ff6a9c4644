// Package kit holds Twinloaf's own widgets and the few ways they are put together.
// It knows how things look and nothing of what they mean: no journal, no culture.
//
// Words and space
//   - Text, NewText, NewLine, Span: text in styles that wraps; Elided, Fit: one line that ends
//     in "…"; Heading, Subheading, Section, Eyebrow, Lead, Body, Strong, Faint, Small,
//     GreatFigure
//   - Rule, Gap, Width, AfterLabel; Stack, Row, RowGrow, Flow, FlowEnd, Columns, WeightedColumns, Beside, BesideList,
//     BesideBoth, Grown
//   - Table, TableColumn: rows in columns that line up; Hanging: words behind their marks; Schedule: the steps of a day
//   - Due, Overdue: what is due, and by how much it is overdue
//   - Page: eyebrow, heading, actions, a body that scrolls; Empty: an empty screen
//   - Glide, Opening: what moves to its place; rows to which more come
//   - Frame: the outermost content of a window, with tips and the toast line
//   - Mark, Labelled: the colour and shape of a culture; ScoreBar, ShareList, ShareLine; DayLanes, Lane:
//     days on one clock
//
// Things to press
//   - Button (PrimaryButton, NewButton, QuietButton, EmberButton, InkButton), QuietRow, Link,
//     Pill, Segments
//   - OpenRows, OpenRow: short lists whose rows open something; RowList, PhotoGrid: long ones
//   - Doors, Door: equal ways to begin; Beginning: where the first Tab goes; FocusRing
//   - Key, Keyboard, KeyHint, KeyList: keys declared as data
//
// Fields, read first and edited in place
//   - TextField, NewNoteField, NewHeadingField, QuantityField, WhenField, ChoiceField,
//     SuggestField, NewSuggestHeading, MarkField; Readout for what is derived
//   - KeptRows: no field is made anew for a thing that has one
//   - Month: a small calendar; ScoreRow: the nine-point scale
//
// Photos and charts
//   - ThumbSource, Loader; PhotoCell, PhotoTile, PhotoStrip, PhotoGrid
//   - PhotoView, PhotoPair, Overlay, DragPoints
//   - ChartFrame, ChartStyle
//
// Over the window
//   - Dialog, ShowDialog, Confirm, ConfirmLoss, Message, Progress
//   - PickFiles, SaveAs, FilePicker, Places
//
// Rules that hold for all of them: they are made and used on the main goroutine;
// what is slow happens elsewhere and comes back by a Main; each can be reached by
// Tab and worked by keys; a setter (SetText, SetValue) never calls OnChanged, and
// changes nothing while the field is being edited; words come from fyne's lang, with
// the English sentence as the key. A widget that has no use for a character hands it
// to the window's Keyboard, so that the keys of a page work wherever the focus is.
package kit
