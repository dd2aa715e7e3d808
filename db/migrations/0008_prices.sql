CREATE TABLE `findable_parts` (
	`id` text PRIMARY KEY NOT NULL,
	`part_id` text NOT NULL,
	`condition` text NOT NULL,
	`low_minor` integer NOT NULL,
	`high_minor` integer NOT NULL,
	`seen_at` text NOT NULL,
	`warranty_months` real,
	`place` text,
	`note` text,
	`removed_at` text,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "findable_parts_range" CHECK("findable_parts"."low_minor" >= 0 and "findable_parts"."high_minor" >= "findable_parts"."low_minor")
);
--> statement-breakpoint
CREATE INDEX `findable_parts_by_part` ON `findable_parts` (`part_id`);--> statement-breakpoint
CREATE TABLE `findable_prices` (
	`id` integer PRIMARY KEY NOT NULL,
	`findable_id` text NOT NULL,
	`seen_at` text NOT NULL,
	`low_minor` integer NOT NULL,
	`high_minor` integer NOT NULL,
	FOREIGN KEY (`findable_id`) REFERENCES `findable_parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `findable_prices_by_findable` ON `findable_prices` (`findable_id`);--> statement-breakpoint
PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_trade_ins` (
	`part_id` text NOT NULL,
	`credit_minor` integer NOT NULL,
	`priced_at` text NOT NULL,
	PRIMARY KEY(`part_id`, `priced_at`),
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
INSERT INTO `__new_trade_ins`("part_id", "credit_minor", "priced_at") SELECT "part_id", "credit_minor", "priced_at" FROM `trade_ins`;--> statement-breakpoint
DROP TABLE `trade_ins`;--> statement-breakpoint
ALTER TABLE `__new_trade_ins` RENAME TO `trade_ins`;--> statement-breakpoint
PRAGMA foreign_keys=ON;--> statement-breakpoint
ALTER TABLE `shops` ADD `sales_tax_bp` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `tax_included` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `tax_on_work` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `trade_ins_lower_tax` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `price_stale_days` real DEFAULT 60 NOT NULL;