CREATE TABLE `answers` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`question_id` text NOT NULL,
	`at` text NOT NULL,
	`versions` text NOT NULL,
	`snapshot` text NOT NULL,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `answers_by_question` ON `answers` (`question_id`);--> statement-breakpoint
CREATE TABLE `customers` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`email` text,
	`phone` text,
	`wants_offers` integer DEFAULT false NOT NULL,
	`note` text
);
--> statement-breakpoint
CREATE TABLE `fitted_parts` (
	`id` integer PRIMARY KEY NOT NULL,
	`machine_tag` text NOT NULL,
	`part_id` text NOT NULL,
	`fitted_at` text,
	`removed_at` text,
	`copy` integer NOT NULL,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `fitted_parts_once` ON `fitted_parts` (`machine_tag`,`part_id`,`fitted_at`,`copy`);--> statement-breakpoint
CREATE INDEX `fitted_parts_by_part` ON `fitted_parts` (`part_id`);--> statement-breakpoint
CREATE TABLE `limits` (
	`machine_tag` text NOT NULL,
	`key` text NOT NULL,
	`source` text NOT NULL,
	`value` text NOT NULL,
	`at` text,
	`note` text,
	`pinned` integer DEFAULT false NOT NULL,
	PRIMARY KEY(`machine_tag`, `key`, `source`),
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `machines` (
	`tag` text PRIMARY KEY NOT NULL,
	`customer_id` text,
	`sold_at` text,
	`note` text,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `machines_by_customer` ON `machines` (`customer_id`);--> statement-breakpoint
CREATE TABLE `messages` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`kind` text NOT NULL,
	`question_id` text NOT NULL,
	`answer_id` integer NOT NULL,
	`machine_tag` text NOT NULL,
	`subject` text NOT NULL,
	`html` text NOT NULL,
	`text` text NOT NULL,
	`edits` text NOT NULL,
	`status` text NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`answer_id`) REFERENCES `answers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `messages_by_question` ON `messages` (`question_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `messages_once` ON `messages` (`answer_id`,`kind`);--> statement-breakpoint
CREATE INDEX `messages_by_machine` ON `messages` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `parts` (
	`id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`spec` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `parts_by_kind` ON `parts` (`kind`);--> statement-breakpoint
CREATE TABLE `questions` (
	`id` text PRIMARY KEY NOT NULL,
	`machine_tag` text NOT NULL,
	`words` text NOT NULL,
	`asked_at` text NOT NULL,
	`display_width_px` integer,
	`display_height_px` integer,
	`display_hz` real,
	`target_fps` real NOT NULL,
	`budget_minor` integer,
	`wishes` text NOT NULL,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `questions_by_machine` ON `questions` (`machine_tag`);--> statement-breakpoint
CREATE INDEX `questions_by_date` ON `questions` (`asked_at`);--> statement-breakpoint
CREATE TABLE `runs` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`machine_tag` text,
	`processor_id` text NOT NULL,
	`card_id` text NOT NULL,
	`memory_type` text NOT NULL,
	`memory_rate_mts` real NOT NULL,
	`memory_channels` integer NOT NULL,
	`memory_total_gb` real NOT NULL,
	`link_gen` real NOT NULL,
	`link_lanes` integer NOT NULL,
	`title_id` text NOT NULL,
	`title_version` text NOT NULL,
	`setting_id` text NOT NULL,
	`average_fps` real NOT NULL,
	`low1_fps` real,
	`note` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`processor_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`card_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`title_id`) REFERENCES `titles`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`setting_id`) REFERENCES `settings`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `runs_by_title` ON `runs` (`title_id`);--> statement-breakpoint
CREATE INDEX `runs_by_machine` ON `runs` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `settings` (
	`id` text PRIMARY KEY NOT NULL,
	`width_px` integer NOT NULL,
	`height_px` integer NOT NULL,
	`preset` text NOT NULL,
	`ray_tracing` integer NOT NULL,
	`upscaler` text,
	`frame_generation` integer NOT NULL,
	`cap_fps` real
);
--> statement-breakpoint
CREATE TABLE `shelf_items` (
	`id` text PRIMARY KEY NOT NULL,
	`part_id` text NOT NULL,
	`condition` text NOT NULL,
	`quantity` integer NOT NULL,
	`price_minor` integer NOT NULL,
	`warranty_months` real,
	`priced_at` text NOT NULL,
	`note` text,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `shelf_items_by_part` ON `shelf_items` (`part_id`);--> statement-breakpoint
CREATE TABLE `shelf_prices` (
	`id` integer PRIMARY KEY NOT NULL,
	`item_id` text NOT NULL,
	`priced_at` text NOT NULL,
	`price_minor` integer NOT NULL,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `shelf_prices_by_item` ON `shelf_prices` (`item_id`);--> statement-breakpoint
CREATE TABLE `shops` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`address` text NOT NULL,
	`email` text NOT NULL,
	`builder` text NOT NULL,
	`locale` text NOT NULL,
	`time_zone` text NOT NULL,
	`currency` text NOT NULL,
	`supply_share` real NOT NULL,
	`rest_of_machine_w` real NOT NULL,
	`smallest_gain_pct` real NOT NULL,
	`run_window_days` real NOT NULL,
	`price_valid_days` real NOT NULL,
	CONSTRAINT "shops_one_row" CHECK("shops"."id" = 1)
);
--> statement-breakpoint
CREATE TABLE `titles` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `trade_ins` (
	`part_id` text PRIMARY KEY NOT NULL,
	`credit_minor` integer NOT NULL,
	`priced_at` text NOT NULL,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `wanted_titles` (
	`question_id` text NOT NULL,
	`position` integer NOT NULL,
	`title_id` text NOT NULL,
	`setting_id` text NOT NULL,
	`weight` real NOT NULL,
	PRIMARY KEY(`question_id`, `position`),
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`title_id`) REFERENCES `titles`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`setting_id`) REFERENCES `settings`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `work_prices` (
	`work` text PRIMARY KEY NOT NULL,
	`minutes` real NOT NULL,
	`price_minor` integer NOT NULL
);
