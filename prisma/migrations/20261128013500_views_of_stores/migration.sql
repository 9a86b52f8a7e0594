-- What is out of a line is looked up when pieces come back: not among all that ever moved of its lots.
create index stock_movement_out on stock_movement (demand_line_id)
  where demand_line_id is not null and act in ('issue', 'return');
-- Where a part lay last, also when nothing of it is left: the receiving desk proposes that bin.
create index stock_lot_last on stock_lot (part_id, received_at);
