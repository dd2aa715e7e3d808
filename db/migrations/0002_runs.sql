CREATE TABLE `title_versions` (
	`title_id` text NOT NULL,
	`version` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`title_id`, `version`),
	FOREIGN KEY (`title_id`) REFERENCES `titles`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
ALTER TABLE `runs` ADD `large_bar` integer;--> statement-breakpoint
ALTER TABLE `runs` ADD `processor_limit_w` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `card_limit_w` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `low1_mean_fps` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `low01_fps` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `low01_mean_fps` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `driver_version` text;--> statement-breakpoint
ALTER TABLE `runs` ADD `scene` text;--> statement-breakpoint
ALTER TABLE `runs` ADD `room_c` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `processor_load_c` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `card_load_c` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `noise_dba` real;--> statement-breakpoint
ALTER TABLE `runs` ADD `log_id` text;--> statement-breakpoint
ALTER TABLE `runs` ADD `taken_out_at` text;--> statement-breakpoint
ALTER TABLE `settings` ADD `lowered_from_id` text REFERENCES settings(id);--> statement-breakpoint
ALTER TABLE `settings` ADD `lowered_what` text;--> statement-breakpoint
ALTER TABLE `titles` ADD `memory_gb` real;--> statement-breakpoint
ALTER TABLE `titles` ADD `graphics_memory_gb` real;--> statement-breakpoint
ALTER TABLE `titles` ADD `cap_fps` real;