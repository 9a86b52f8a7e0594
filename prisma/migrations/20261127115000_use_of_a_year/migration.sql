-- What was used within a year is read whole whenever bins are classed: from the index alone, without its table.
drop index stock_movement_used;
create index stock_movement_used on stock_movement (moved_at) include (part_id, value_change) where act in ('issue', 'return');
